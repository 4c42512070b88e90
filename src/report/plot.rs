//! Draws the data of a [`Picture`] in black and grey, with axes; and writes it as a table.
