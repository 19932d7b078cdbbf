//! The phone's side of the book.
