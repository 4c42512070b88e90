//! The shop's own parts list.

use crate::spring::Ends;
use crate::units::{Force, Length, Ratio, SpringRate};

/// A spring of the list.
#[derive(Debug, Clone, PartialEq)]
pub struct Spring {
    /// Line of the file, from 1.
    pub line: usize,
    /// Its number.
    pub number: String,
    /// What it is.
    pub what: String,
    /// Rate.
    pub rate: SpringRate,
    /// ± of the rate, surely inside.
    pub rate_tolerance: Option<Ratio>,
    /// Free length.
    pub free_length: Option<Length>,
    /// Solid length.
    pub solid_length: Option<Length>,
    /// Inside diameter.
    pub inside_diameter: Option<Length>,
    /// Outside diameter.
    pub outside_diameter: Option<Length>,
    /// Wire diameter.
    pub wire: Option<Length>,
    /// All coils.
    pub total_coils: Option<f64>,
    /// Ends.
    pub ends: Option<Ends>,
    /// Greatest load.
    pub max_load: Option<Force>,
    /// Price of one.
    pub price: Option<f64>,
    /// On the shelf.
    pub stock: Option<u32>,
}

impl Spring {
    /// A spring of which nothing is known but its line and number; its rate is to be filled in.
    pub fn numbered(line: usize, number: &str) -> Self {
        let rate = crate::units::Quantity::from_si(0.0);
        Spring {
            line,
            number: number.to_owned(),
            what: String::new(),
            rate,
            rate_tolerance: None,
            free_length: None,
            solid_length: None,
            inside_diameter: None,
            outside_diameter: None,
            wire: None,
            total_coils: None,
            ends: None,
            max_load: None,
            price: None,
            stock: None,
        }
    }
}
