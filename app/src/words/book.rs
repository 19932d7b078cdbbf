//! Entries as sentences.
