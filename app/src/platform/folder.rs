//! A folder the person chose, where the browser lets a page keep one: other programs carry it between phones.
//!
//! The folder is remembered in a small database of its own, because a browser gives it as an object that only a database
//! keeps. After a new start the browser may want to be asked again, in the moment of a tap.

use indexed_db_futures::database::Database;
use indexed_db_futures::prelude::*;
use indexed_db_futures::transaction::TransactionMode;
use js_sys::Promise;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

use super::{call, member, object, promised};

const DATABASE: &str = "velamen-folder";
const STORE: &str = "folder";
const KEY: &str = "chosen";

/// Whether the page may use the folder.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Leave {
    Given,
    /// It has to be asked for in the moment of a tap.
    ToBeAsked,
    Refused,
}

/// What came of choosing.
#[derive(Debug)]
pub enum Chosen {
    Folder(Folder),
    Cancelled,
    Unavailable,
}

/// A file in the folder, as it was at one moment.
#[derive(Debug, Clone)]
pub struct Entry {
    pub name: String,
    pub file: web_sys::File,
    pub bytes: u64,
    pub modified: u64,
}

/// A folder that was chosen.
#[derive(Debug, Clone)]
pub struct Folder(JsValue);

/// Whether this browser lets a page keep a folder.
pub fn can_choose() -> bool {
    member(&js_sys::global(), "showDirectoryPicker").is_some()
}

/// Lets the person choose a folder, in the moment of a tap.
pub async fn choose() -> Chosen {
    let options = object(&[("mode", "readwrite".into()), ("id", "velamen".into())]);
    let asked = call(&js_sys::global(), "showDirectoryPicker", &[options]);
    let Some(promise) = asked.and_then(|it| it.dyn_into::<Promise>().ok()) else {
        return Chosen::Unavailable;
    };
    match JsFuture::from(promise).await {
        Ok(handle) => Chosen::Folder(Folder(handle)),
        Err(error) => match error.dyn_ref::<web_sys::DomException>() {
            Some(error) if error.name() == "AbortError" => Chosen::Cancelled,
            _ => Chosen::Unavailable,
        },
    }
}

/// The folder chosen before, if there is one. Where none ever was, no database is made to find that out.
pub async fn remembered() -> Option<Folder> {
    if is_missing().await {
        return None;
    }
    let database = database().await?;
    let found = found(&database).await;
    database.close();
    found.map(Folder)
}

/// Whether the browser says that there is no such database; one that does not tell may have it.
async fn is_missing() -> bool {
    let Some(factory) = member(&js_sys::global(), "indexedDB") else {
        return true;
    };
    let known = promised(&factory, "databases", &[]).await;
    let Some(known) = known.and_then(|known| known.dyn_into::<js_sys::Array>().ok()) else {
        return false;
    };
    !known
        .iter()
        .any(|one| member(&one, "name").is_some_and(|name| name == DATABASE))
}

async fn found(database: &Database) -> Option<JsValue> {
    let transaction = database.transaction(STORE).build().ok()?;
    let store = transaction.object_store(STORE).ok()?;
    let handle = store.get::<JsValue, _, _>(KEY).primitive().ok()?.await;
    handle.ok().flatten()
}

/// Forgets the folder; its files stay.
pub async fn forget() {
    let Some(database) = database().await else {
        return;
    };
    let done = async {
        let transaction = database
            .transaction(STORE)
            .with_mode(TransactionMode::Readwrite)
            .build()
            .ok()?;
        let store = transaction.object_store(STORE).ok()?;
        store.delete(KEY).primitive().ok()?;
        transaction.commit().await.ok()
    };
    // A folder that stays behind is offered again, and can be forgotten then.
    let _ = done.await;
    database.close();
}

async fn database() -> Option<Database> {
    let opening = Database::open(DATABASE)
        .with_version(1_u32)
        .with_on_upgrade_needed(|_, database| {
            database.create_object_store(STORE).build()?;
            Ok(())
        });
    opening.await.ok()
}

impl Folder {
    /// Remembers the folder for the next start; `false` when the browser does not.
    pub async fn remember(&self) -> bool {
        let Some(database) = database().await else {
            return false;
        };
        let done = async {
            let transaction = database
                .transaction(STORE)
                .with_mode(TransactionMode::Readwrite)
                .build()
                .ok()?;
            let store = transaction.object_store(STORE).ok()?;
            store
                .put(&self.0)
                .with_key(KEY)
                .without_key_type()
                .primitive()
                .ok()?;
            transaction.commit().await.ok()
        };
        let kept = done.await.is_some();
        database.close();
        kept
    }

    /// What the person calls it.
    pub fn name(&self) -> String {
        member(&self.0, "name")
            .and_then(|name| name.as_string())
            .unwrap_or_default()
    }

    /// Whether the page may use it now.
    pub async fn leave(&self) -> Leave {
        self.asked("queryPermission").await
    }

    /// Asks for it, in the moment of a tap.
    pub async fn ask(&self) -> Leave {
        self.asked("requestPermission").await
    }

    async fn asked(&self, method: &str) -> Leave {
        if member(&self.0, method).is_none() {
            return Leave::Given;
        }
        let mode = object(&[("mode", "readwrite".into())]);
        let answer = promised(&self.0, method, &[mode]).await;
        match answer.and_then(|answer| answer.as_string()).as_deref() {
            Some("granted") => Leave::Given,
            Some("prompt") => Leave::ToBeAsked,
            _ => Leave::Refused,
        }
    }

    /// The files in it; `None` when it cannot be read, as when it was moved away.
    pub async fn files(&self) -> Option<Vec<Entry>> {
        let values = call(&self.0, "values", &[])?;
        let mut files = Vec::new();
        loop {
            let step = promised(&values, "next", &[]).await?;
            if member(&step, "done").is_some_and(|done| done.is_truthy()) {
                return Some(files);
            }
            let handle = member(&step, "value")?;
            let is_file = member(&handle, "kind").is_some_and(|kind| kind == "file");
            if !is_file {
                continue;
            }
            // A file that goes away while it is looked at is not there.
            if let Some(entry) = Self::entry(&handle).await {
                files.push(entry);
            }
        }
    }

    async fn entry(handle: &JsValue) -> Option<Entry> {
        let name = member(handle, "name")?.as_string()?;
        let file = promised(handle, "getFile", &[]).await?;
        let file: web_sys::File = file.dyn_into().ok()?;
        Some(Entry {
            name,
            bytes: super::whole(&file.size().into())?,
            modified: super::whole(&file.last_modified().into()).unwrap_or(0),
            file,
        })
    }

    /// Writes a text at the end of a file, or in place of all there was; `false` when the folder does not take it. The
    /// file is changed when all of it is written, and not before.
    pub async fn write(&self, name: &str, text: &str, at: Option<u64>) -> bool {
        self.try_write(name, text, at).await.is_some()
    }

    async fn try_write(&self, name: &str, text: &str, at: Option<u64>) -> Option<()> {
        let make = object(&[("create", JsValue::TRUE)]);
        let handle = promised(&self.0, "getFileHandle", &[name.into(), make]).await?;
        let keep = object(&[("keepExistingData", at.is_some().into())]);
        let writer = promised(&handle, "createWritable", &[keep]).await?;
        let mut write = object(&[("type", "write".into()), ("data", text.into())]);
        if let Some(at) = at {
            // Files are far below the size at which a number loses a byte.
            #[allow(clippy::cast_precision_loss)]
            let at = JsValue::from_f64(at as f64);
            write = object(&[
                ("type", "write".into()),
                ("position", at),
                ("data", text.into()),
            ]);
        }
        let written = promised(&writer, "write", &[write]).await;
        if written.is_none() {
            promised(&writer, "abort", &[]).await;
            return None;
        }
        promised(&writer, "close", &[]).await.map(|_| ())
    }
}
