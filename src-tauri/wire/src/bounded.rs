//! A list that refuses to grow past its bound while it is read, so that a few
//! bytes from a stranger cannot ask for much memory.

use serde::de::{Error, SeqAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize};
use std::fmt;
use std::marker::PhantomData;
use std::ops::Deref;

/// A list of at most `MOST` items when read from the wire.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(transparent)]
pub struct Bounded<T, const MOST: usize>(Vec<T>);

impl<T, const MOST: usize> Bounded<T, MOST> {
    /// The items, without the bound.
    #[must_use]
    pub fn into_vec(self) -> Vec<T> {
        self.0
    }
}

impl<T, const MOST: usize> Default for Bounded<T, MOST> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<T, const MOST: usize> From<Vec<T>> for Bounded<T, MOST> {
    fn from(items: Vec<T>) -> Self {
        Self(items)
    }
}

impl<T, const MOST: usize> FromIterator<T> for Bounded<T, MOST> {
    fn from_iter<I: IntoIterator<Item = T>>(items: I) -> Self {
        Self(items.into_iter().collect())
    }
}

impl<T, const MOST: usize> Deref for Bounded<T, MOST> {
    type Target = [T];

    fn deref(&self) -> &[T] {
        &self.0
    }
}

impl<'de, T: Deserialize<'de>, const MOST: usize> Deserialize<'de> for Bounded<T, MOST> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_seq(UpTo::<T, MOST>(PhantomData))
    }
}

struct UpTo<T, const MOST: usize>(PhantomData<T>);

impl<'de, T: Deserialize<'de>, const MOST: usize> Visitor<'de> for UpTo<T, MOST> {
    type Value = Bounded<T, MOST>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "a list of at most {MOST} items")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Self::Value, A::Error> {
        let mut list = Vec::with_capacity(items.size_hint().unwrap_or(0).min(MOST).min(64));
        while let Some(item) = items.next_element()? {
            if list.len() == MOST {
                return Err(A::Error::custom("list too long"));
            }
            list.push(item);
        }
        Ok(Bounded(list))
    }
}
