//! A logger's file chosen on this phone, as rows of cells. Nothing of it is kept until its days are taken.

use leptos::prelude::*;
use leptos::task::spawn_local;
use velamen_core::climate::{Cells, FILE_BYTES_MAX, cells};

use super::Ledger;
use crate::platform::files;
use crate::words;

/// What came of choosing a logger's file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LoggerFile {
    Nothing,
    Reading,
    Fault(String),
    Read(Cells),
}

impl Ledger {
    /// Reads a chosen file into cells. Changes nothing.
    pub fn read_logger_file(self, file: web_sys::File, read: RwSignal<LoggerFile>) {
        read.set(LoggerFile::Reading);
        spawn_local(async move {
            let told = match files::read_text(&file, FILE_BYTES_MAX).await {
                Ok(text) => LoggerFile::Read(cells(&text)),
                Err(_) => LoggerFile::Fault(words::files::unreadable()),
            };
            read.set(told);
        });
    }
}
