//! One field of master data: who set it last, and what was set without knowing of that.

use serde::Serialize;

use crate::id::EntryRef;
use crate::log::Fact;

/// A value that several phones may set.
///
/// The causally last change counts. Of changes made without knowledge of each other the later in order counts, and
/// the others are kept until somebody who knew of both sets it again.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Field<T> {
    value: Option<(T, EntryRef)>,
    /// Entries whose value lost against one that did not know of it.
    lost: Vec<(T, EntryRef)>,
}

impl<T> Default for Field<T> {
    fn default() -> Self {
        Self {
            value: None,
            lost: Vec::new(),
        }
    }
}

impl<T> Field<T> {
    /// Whether nobody ever said anything: a field that came later leaves the digest of older books as it was.
    pub(super) const fn never_set(&self) -> bool {
        self.value.is_none()
    }
}

impl<T: Clone + PartialEq> Field<T> {
    /// Sets the field; facts come in order.
    pub(crate) fn set(&mut self, value: &T, fact: &Fact<'_>) {
        let id = fact.entry.id;
        self.lost.retain(|(_, by)| !fact.knew(*by));
        if let Some((before, by)) = self.value.take()
            && !fact.knew(by)
            && before != *value
        {
            self.lost.push((before, by));
        }
        self.value = Some((value.clone(), id));
    }

    /// Sets the field if the change says something about it.
    pub(crate) fn set_if(&mut self, value: Option<&T>, fact: &Fact<'_>) {
        if let Some(value) = value {
            self.set(value, fact);
        }
    }

    #[must_use]
    pub fn get(&self) -> Option<&T> {
        self.value.as_ref().map(|(value, _)| value)
    }

    /// The entry that set the value in force.
    #[must_use]
    pub fn set_by(&self) -> Option<EntryRef> {
        self.value.as_ref().map(|(_, by)| *by)
    }

    /// Entries that set something else without knowing of the one in force.
    pub fn disputed_by(&self) -> impl Iterator<Item = EntryRef> + '_ {
        self.lost.iter().map(|(_, by)| *by)
    }
}

impl<T: Clone + PartialEq + Default> Field<T> {
    /// The value in force, or the type's own default.
    #[must_use]
    pub fn or_default(&self) -> T {
        self.get().cloned().unwrap_or_default()
    }
}
