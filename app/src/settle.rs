//! An answer that is settled once, by whoever comes first.
//!
//! Some requests to the browser have to run on after their answer is known. Opening a book may hear first that another
//! window is in the way; dropping the request then would let the browser carry it out later with nobody there to make
//! the stores. A lock is held as long as its request runs. So the request runs by itself, and the answer goes through
//! here.

use std::cell::RefCell;
use std::future::poll_fn;
use std::rc::Rc;
use std::task::{Poll, Waker};

enum Slot<T> {
    Waiting(Option<Waker>),
    Settled(T),
    Taken,
}

/// One end of an answer; clones share it.
pub(crate) struct Settle<T>(Rc<RefCell<Slot<T>>>);

impl<T> Clone for Settle<T> {
    fn clone(&self) -> Self {
        Self(Rc::clone(&self.0))
    }
}

impl<T> Settle<T> {
    pub(crate) fn new() -> Self {
        Self(Rc::new(RefCell::new(Slot::Waiting(None))))
    }

    /// Settles the answer, or gives the value back when it was settled before.
    pub(crate) fn settle(&self, value: T) -> Result<(), T> {
        let mut slot = self.0.borrow_mut();
        let Slot::Waiting(waker) = &mut *slot else {
            return Err(value);
        };
        let waker = waker.take();
        *slot = Slot::Settled(value);
        drop(slot);
        if let Some(waker) = waker {
            waker.wake();
        }
        Ok(())
    }

    /// Waits for the answer. When this is given up, whoever settles later gets the value back.
    pub(crate) async fn settled(&self) -> T {
        let _waiting = Waiting(self);
        poll_fn(|context| {
            let mut slot = self.0.borrow_mut();
            match std::mem::replace(&mut *slot, Slot::Taken) {
                Slot::Settled(value) => Poll::Ready(value),
                Slot::Waiting(_) => {
                    *slot = Slot::Waiting(Some(context.waker().clone()));
                    Poll::Pending
                }
                Slot::Taken => Poll::Pending,
            }
        })
        .await
    }
}

/// Somebody waits for the answer as long as this lives.
struct Waiting<'a, T>(&'a Settle<T>);

impl<T> Drop for Waiting<'_, T> {
    fn drop(&mut self) {
        let left = std::mem::replace(&mut *self.0.0.borrow_mut(), Slot::Taken);
        drop(left);
    }
}
