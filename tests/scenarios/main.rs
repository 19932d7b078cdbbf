//! The core as a grower meets it: a date, something done, and what the book then says.

mod three_pots;
