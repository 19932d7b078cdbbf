//! A table chosen on this phone, a logger's file or a stock list, as rows of cells. Nothing of it is kept until it is taken.

use leptos::prelude::*;
use leptos::task::spawn_local;
use velamen_core::cells::{Cells, FILE_BYTES_MAX, cells, decoded};

use super::Ledger;
use crate::platform::files;
use crate::words;

/// What came of choosing a table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TableFile {
    Nothing,
    Reading,
    Fault(String),
    Read(Cells),
}

impl Ledger {
    /// Reads a chosen file into cells. Changes nothing.
    pub fn read_table(self, file: web_sys::File, read: RwSignal<TableFile>) {
        let turn = self.next_choice();
        read.set(TableFile::Reading);
        spawn_local(async move {
            let bytes = files::read_bytes(&file, FILE_BYTES_MAX).await;
            let told = match bytes.map(|bytes| decoded(&bytes)) {
                Ok(Some(text)) => TableFile::Read(cells(&text)),
                Ok(None) => TableFile::Fault(words::files::no_table()),
                Err(files::FileError::TooLarge) => {
                    TableFile::Fault(words::files::too_large(FILE_BYTES_MAX))
                }
                Err(_) => TableFile::Fault(words::files::unreadable()),
            };
            if self.is_last_choice(turn) {
                read.set(told);
            }
        });
    }
}
