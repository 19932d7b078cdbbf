//! One connection to one book, how it is opened, given up, and opened again.
//!
//! - When another window needs a newer version, or erases the book, the browser asks this one to let go. It does so at
//!   once, says so, and never opens the book again by itself: that would stand in the other window's way.
//! - When the browser drops the connection without asking (phones do, in the background), the next thing asked finds
//!   out, opens the book again and is tried a second time. Once only.
//! - A book that has vanished is not made anew by opening it again: writing on into an empty book would hide a loss.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use indexed_db_futures::database::Database;
use indexed_db_futures::error::UnexpectedDataError;
use indexed_db_futures::internals::SystemRepr;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use wasm_bindgen_futures::spawn_local;

use super::fault::{Fault, of_opening};
use super::schema::{Step, upgrade};
use super::{Lost, StorageError};
use crate::settle::Settle;

/// Which attempt this is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Attempt {
    First,
    /// After the connection was lost; the first attempt may have reached the disk.
    Again,
}

type Listener = Rc<dyn Fn(Lost)>;

struct Shared {
    ended: Cell<bool>,
    listener: RefCell<Option<Listener>>,
}

impl Shared {
    fn lose(&self, lost: Lost) {
        if self.ended.replace(true) {
            return;
        }
        let listener = self.listener.borrow().clone();
        if let Some(listener) = listener {
            listener(lost);
        }
    }
}

struct Live {
    database: Database,
    on_change: Closure<dyn FnMut(web_sys::IdbVersionChangeEvent)>,
}

impl Live {
    fn new(database: Database, shared: &Rc<Shared>) -> Self {
        let on_change = Closure::new({
            let shared = Rc::clone(shared);
            let raw = database.as_sys().clone();
            move |event: web_sys::IdbVersionChangeEvent| {
                raw.close();
                shared.lose(match event.new_version() {
                    Some(_) => Lost::Superseded,
                    None => Lost::Erased,
                });
            }
        });
        database
            .as_sys()
            .set_onversionchange(Some(on_change.as_ref().unchecked_ref()));
        Self {
            database,
            on_change,
        }
    }
}

impl Drop for Live {
    fn drop(&mut self) {
        let raw = self.database.as_sys();
        raw.set_onversionchange(None);
        raw.close();
        let _ = &self.on_change;
    }
}

/// The connection to one book.
pub(crate) struct Connection {
    name: String,
    steps: &'static [Step],
    live: RefCell<Option<Live>>,
    shared: Rc<Shared>,
    /// Counts the times the book was opened, so that of two who find the connection gone only one opens it again.
    opened: Cell<u32>,
}

impl std::fmt::Debug for Connection {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        formatter
            .debug_struct("Connection")
            .field("name", &self.name)
            .field("ended", &self.shared.ended.get())
            .finish_non_exhaustive()
    }
}

impl Connection {
    /// Opens the book; the second value is the version before, or `None` for a new book.
    pub(crate) async fn open(
        name: &str,
        steps: &'static [Step],
    ) -> Result<(Self, Option<u32>), StorageError> {
        let (database, before) = open_database(name, steps, Vanished::MakeNew).await?;
        let shared = Rc::new(Shared {
            ended: Cell::new(false),
            listener: RefCell::new(None),
        });
        let live = Live::new(database, &shared);
        let connection = Self {
            name: name.to_owned(),
            steps,
            live: RefCell::new(Some(live)),
            shared,
            opened: Cell::new(1),
        };
        Ok((connection, before))
    }

    pub(crate) fn on_lost(&self, listener: Box<dyn Fn(Lost)>) {
        *self.shared.listener.borrow_mut() = Some(Rc::from(listener));
    }

    pub(crate) fn close(&self) {
        self.shared.ended.set(true);
        self.live.borrow_mut().take();
    }

    /// The version of the stores.
    pub(crate) fn schema(&self) -> u32 {
        u32::try_from(self.steps.len()).unwrap_or(u32::MAX)
    }

    /// Does one thing with the database; when the connection turns out to be gone, opens it again and does it once
    /// more.
    pub(crate) async fn run<T>(
        &self,
        work: impl AsyncFn(Database, Attempt) -> Result<T, Fault>,
    ) -> Result<T, StorageError> {
        let opened = self.opened.get();
        match self.attempt(&work, Attempt::First).await {
            Ok(value) => return Ok(value),
            Err(Fault::Final(error)) => return Err(error),
            Err(Fault::Dropped) => {}
        }
        if self.shared.ended.get() {
            return Err(StorageError::Closed);
        }
        self.reopen(opened).await?;
        match self.attempt(&work, Attempt::Again).await {
            Ok(value) => Ok(value),
            Err(Fault::Final(error)) => Err(error),
            Err(Fault::Dropped) => Err(StorageError::Closed),
        }
    }

    async fn attempt<T>(
        &self,
        work: &impl AsyncFn(Database, Attempt) -> Result<T, Fault>,
        attempt: Attempt,
    ) -> Result<T, Fault> {
        if self.shared.ended.get() {
            return Err(StorageError::Closed.into());
        }
        let database = self
            .live
            .borrow()
            .as_ref()
            .map(|live| live.database.clone())
            .ok_or(Fault::Dropped)?;
        work(database, attempt).await
    }

    async fn reopen(&self, opened: u32) -> Result<(), StorageError> {
        if self.opened.get() != opened {
            return Ok(());
        }
        self.live.borrow_mut().take();
        let (database, _) = open_database(&self.name, self.steps, Vanished::Refuse).await?;
        if self.shared.ended.get() {
            database.close();
            return Err(StorageError::Closed);
        }
        let live = Live::new(database, &self.shared);
        *self.live.borrow_mut() = Some(live);
        self.opened.set(opened.saturating_add(1));
        Ok(())
    }

    /// Closes the database behind the connection's back, as a browser does.
    #[cfg(test)]
    pub(crate) fn drop_underneath(&self) {
        if let Some(live) = self.live.borrow().as_ref() {
            live.database.as_sys().close();
        }
    }

    /// How often the book was opened.
    #[cfg(test)]
    pub(crate) fn times_opened(&self) -> u32 {
        self.opened.get()
    }
}

/// What to do about a book that is not there.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Vanished {
    MakeNew,
    Refuse,
}

type Answer = Result<(Database, Option<u32>), StorageError>;

/// Opens a database. The request runs on by itself, because it may be carried out long after we have answered that
/// another window is in the way; the late connection is then closed at once.
async fn open_database(name: &str, steps: &'static [Step], vanished: Vanished) -> Answer {
    let answer = Settle::<Answer>::new();
    spawn_local({
        let answer = answer.clone();
        let name = name.to_owned();
        async move {
            let opened = request(name, steps, vanished, answer.clone()).await;
            if let Err(Ok((database, _))) = answer.settle(opened) {
                database.close();
            }
        }
    });
    answer.settled().await
}

async fn request(
    name: String,
    steps: &'static [Step],
    vanished: Vanished,
    answer: Settle<Answer>,
) -> Answer {
    let before = Rc::new(Cell::new(None));
    let refused = Rc::new(Cell::new(false));
    let version = u32::try_from(steps.len()).unwrap_or(u32::MAX);
    let opened = Database::open(name)
        .with_version(version)
        .with_on_blocked(move |_| {
            let _ = answer.settle(Err(StorageError::Blocked));
            Ok(())
        })
        .with_on_upgrade_needed({
            let before = Rc::clone(&before);
            let refused = Rc::clone(&refused);
            move |event, database| {
                // Versions are small whole numbers, so the cast keeps them.
                #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
                let old = event.old_version() as u32;
                if old == 0 && vanished == Vanished::Refuse {
                    refused.set(true);
                    return Err(UnexpectedDataError::NoErrorFound.into());
                }
                before.set(Some(old));
                upgrade(&database, old, steps)
            }
        })
        .await;
    match opened {
        Ok(database) => {
            let before = before.get().unwrap_or(version);
            Ok((database, (before > 0).then_some(before)))
        }
        Err(_) if refused.get() => Err(StorageError::Closed),
        Err(error) => Err(of_opening(&error)),
    }
}

/// Removes a database. Other connections are asked to let go; one that does not is told as blocked, and the removal
/// follows when it does.
pub(crate) async fn erase_database(name: &str) -> Result<(), StorageError> {
    let answer = Settle::<Result<(), StorageError>>::new();
    let request = Database::delete_by_name(name).map_err(|error| of_opening(&error))?;
    let on_blocked = Closure::<dyn FnMut()>::new({
        let answer = answer.clone();
        move || {
            let _ = answer.settle(Err(StorageError::Blocked));
        }
    });
    let raw: &web_sys::IdbOpenDbRequest = request.as_sys().unchecked_ref();
    raw.set_onblocked(Some(on_blocked.as_ref().unchecked_ref()));
    spawn_local({
        let answer = answer.clone();
        async move {
            let erased = request.await.map_err(|error| of_opening(&error.into()));
            let _ = answer.settle(erased);
            drop(on_blocked);
        }
    });
    answer.settled().await
}
