//! What the example says: core makes it, and keeps the phrases of the first language for its checks.

pub use velamen_core::demo::ENGLISH as PHRASES;
