//! What the browser says when something goes wrong, and what it means for us.
//!
//! A full disk hides: the requests succeed and then the transaction is aborted, and the reason stands only on the
//! transaction itself. So a failed commit is always explained from there first.

use indexed_db_futures::error::{DomException, Error, OpenDbError, UnexpectedDataError};
use wasm_bindgen::JsCast;

use super::StorageError;

/// A fault in one attempt.
#[derive(Debug)]
pub(crate) enum Fault {
    /// The connection is gone; another one may do better.
    Dropped,
    /// Another attempt would end the same way.
    Final(StorageError),
}

impl From<StorageError> for Fault {
    fn from(error: StorageError) -> Self {
        Self::Final(error)
    }
}

impl From<Error> for Fault {
    fn from(error: Error) -> Self {
        match exception(&error) {
            Some(exception) => of_exception(&exception),
            // An abort without a reason is the browser closing the connection under us.
            None if error == Error::MissingData(UnexpectedDataError::TransactionAborted) => {
                Self::Dropped
            }
            None => Self::Final(StorageError::Other(error.to_string())),
        }
    }
}

/// The meaning of an exception on a request or a transaction.
pub(crate) fn of_exception(exception: &web_sys::DomException) -> Fault {
    let name = exception.name();
    match name.as_str() {
        "QuotaExceededError" => Fault::Final(StorageError::Full),
        "ConstraintError" => Fault::Final(StorageError::Duplicate),
        "InvalidStateError" | "UnknownError" | "AbortError" => Fault::Dropped,
        _ => Fault::Final(StorageError::Other(format!(
            "{name}: {}",
            exception.message()
        ))),
    }
}

/// The meaning of a fault while opening or erasing a book.
pub(crate) fn of_opening(error: &OpenDbError) -> StorageError {
    let base = match error {
        // No version here is zero: what the browser throws at once, as where storage is forbidden, is told as that.
        OpenDbError::NullFactory
        | OpenDbError::UnsupportedEnvironment
        | OpenDbError::VersionZero => return StorageError::Refused,
        OpenDbError::Base(base) => base,
    };
    let Some(exception) = exception(base) else {
        return StorageError::Other(base.to_string());
    };
    let name = exception.name();
    match name.as_str() {
        "VersionError" => StorageError::Newer,
        "QuotaExceededError" => StorageError::Full,
        // Private windows of some browsers answer with one of these.
        "SecurityError" | "InvalidStateError" => StorageError::Refused,
        "AbortError" => StorageError::Closed,
        _ => StorageError::Other(format!("{name}: {}", exception.message())),
    }
}

fn exception(error: &Error) -> Option<web_sys::DomException> {
    use indexed_db_futures::error::JSError;
    match error {
        Error::DomException(exception) => Some(plain(exception)),
        Error::Unknown(JSError::Error(error)) => error.dyn_ref().cloned(),
        Error::Unknown(JSError::Unknown(value)) => value.dyn_ref().cloned(),
        _ => None,
    }
}

fn plain(exception: &DomException) -> web_sys::DomException {
    exception.clone().into()
}

#[cfg(test)]
#[cfg(target_arch = "wasm32")]
mod tests {
    use super::{Fault, of_exception, of_opening};
    use crate::storage::StorageError;
    use indexed_db_futures::error::OpenDbError;
    use wasm_bindgen_test::wasm_bindgen_test;

    fn exception(name: &str) -> web_sys::DomException {
        web_sys::DomException::new_with_message_and_name("for a test", name).unwrap()
    }

    #[wasm_bindgen_test]
    fn a_full_disk_is_told_as_such() {
        let fault = of_exception(&exception("QuotaExceededError"));
        assert!(matches!(fault, Fault::Final(StorageError::Full)));
    }

    #[wasm_bindgen_test]
    fn a_lost_connection_is_worth_another_attempt_and_bad_input_is_not() {
        for name in ["InvalidStateError", "UnknownError", "AbortError"] {
            assert!(matches!(of_exception(&exception(name)), Fault::Dropped));
        }
        let fault = of_exception(&exception("DataError"));
        assert!(
            matches!(fault, Fault::Final(StorageError::Other(words)) if words.contains("DataError"))
        );
    }

    #[wasm_bindgen_test]
    fn a_private_window_without_storage_is_told_as_refused() {
        assert_eq!(of_opening(&OpenDbError::NullFactory), StorageError::Refused);
        assert_eq!(of_opening(&OpenDbError::VersionZero), StorageError::Refused);
        let error = OpenDbError::from(exception("SecurityError"));
        assert_eq!(of_opening(&error), StorageError::Refused);
        let error = OpenDbError::from(exception("VersionError"));
        assert_eq!(of_opening(&error), StorageError::Newer);
    }
}
