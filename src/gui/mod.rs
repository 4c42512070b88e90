//! window
