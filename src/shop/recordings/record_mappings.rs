//! What the columns of recordings were taken to mean by hand: a logger writes every file with the same columns.

use serde::{Deserialize, Serialize};

use super::Ask;

/// Number remembered.
const MOST: usize = 50;

/// Columns, and as what a file with these columns is read.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Mapping {
    columns: Vec<String>,
    read_as: Ask,
}

/// All that are remembered, the latest first.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Mappings(Vec<Mapping>);

impl Mappings {
    /// Nothing is remembered.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// As what a file with exactly these columns was read.
    pub fn of(&self, columns: &[String]) -> Option<&Ask> {
        self.0.iter().find(|m| m.columns == columns).map(|m| &m.read_as)
    }

    /// With these columns read so; what is read as found needs no remembering.
    #[must_use]
    pub fn with(mut self, columns: &[String], read_as: &Ask) -> Self {
        self.0.retain(|m| m.columns != columns);
        if *read_as != Ask::default() {
            self.0.insert(0, Mapping { columns: columns.to_vec(), read_as: read_as.clone() });
        }
        self.0.truncate(MOST);
        self
    }
}
