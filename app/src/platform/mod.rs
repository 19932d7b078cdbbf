//! The browser around the program.
