//! Lists to take out of the book as a table: the stock, what divisions yielded, what was lost.
//!
//! A table's columns have English names that never change. It is written by the same rules as the record of treatments:
//! RFC 4180, and no cell that a spreadsheet would take for a formula.

mod losses;
mod stock;
mod yields;

pub use losses::losses;
pub use stock::stock;
pub use yields::{AFTER_DAYS, yields};

use serde_json::Value;

use crate::record::cell;
use crate::state::State;
use crate::time::Moment;

/// Rows under the names of their columns.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Table {
    pub columns: &'static [&'static str],
    pub rows: Vec<Vec<Value>>,
}

/// Which list.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum List {
    #[default]
    Stock,
    Yields,
    Losses,
}

impl List {
    pub const ALL: [Self; 3] = [Self::Stock, Self::Yields, Self::Losses];

    /// For the name of its file; never changes.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Stock => "stock",
            Self::Yields => "divisions",
            Self::Losses => "losses",
        }
    }

    /// The list as it stands.
    #[must_use]
    pub fn table(self, state: &State, at: &Moment) -> Table {
        match self {
            Self::Stock => stock(state),
            Self::Yields => yields(state, at.today),
            Self::Losses => losses(state),
        }
    }
}

impl Table {
    /// The table as a file (RFC 4180).
    #[must_use]
    pub fn csv(&self) -> String {
        let mut text = self.columns.join(",");
        text.push_str("\r\n");
        for row in &self.rows {
            let cells: Vec<String> = row.iter().map(cell).collect();
            text.push_str(&cells.join(","));
            text.push_str("\r\n");
        }
        text
    }
}

fn text(text: impl ToString) -> Value {
    Value::String(text.to_string())
}

/// An empty cell where nothing is known.
fn known(value: Option<impl ToString>) -> Value {
    value.map_or(Value::Null, text)
}

/// The wire name of a choice.
fn wire<T: serde::Serialize>(choice: &T) -> Value {
    serde_json::to_value(choice).unwrap_or(Value::Null)
}
