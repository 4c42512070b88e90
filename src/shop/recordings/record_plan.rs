//! Which columns of a recording are read: as its headers say, by their places without headers, or as asked.

use super::record_columns::{Layout, TimeColumn, layout, plain};
use super::record_rows::Form;
use super::{Ask, RecordError};
use crate::base::table::quoted;
use crate::trade::recording::Signal;

/// Which columns are read, and which of them was named as the vertical.
pub(super) struct Plan {
    pub layout: Layout,
    pub named: Option<usize>,
}

/// The columns of a file.
struct Columns<'a> {
    form: &'a Form,
    names: &'a [String],
    ask: &'a Ask,
}

pub(super) fn plan(form: &Form, names: &[String], ask: &Ask) -> Result<Plan, RecordError> {
    let columns = Columns { form, names, ask };
    let mut layout = columns.layout().ok_or_else(|| RecordError::NoMotion { columns: columns.shown() })?;
    if let Some(wanted) = &ask.time {
        let at = columns.place(wanted)?;
        let said = layout.time.filter(|time| time.at == at);
        layout.time = said.or(Some(TimeColumn { at, unit: None, steps: false }));
        layout.axes.retain(|axis| *axis != at);
    }
    if layout.time.is_none() && ask.rate_hz.is_none() {
        return Err(RecordError::NoTime { columns: columns.shown() });
    }
    let named = ask.axis.as_ref().map(|wanted| columns.vertical(&mut layout, wanted)).transpose()?;
    if layout.axes.is_empty() {
        return Err(RecordError::NoMotion { columns: columns.shown() });
    }
    Ok(Plan { layout, named })
}

impl Columns<'_> {
    /// By the headers; where these say no motion, the column that was named; without headers time, then axes.
    fn layout(&self) -> Option<Layout> {
        let motion = |time, axes, ignored| Layout { time, axes, signal: Signal::Acceleration, unit: None, ignored };
        let Some(header) = &self.form.header else {
            let timed = self.ask.rate_hz.is_none() && self.form.cells > 1;
            let time = timed.then_some(TimeColumn { at: 0, unit: None, steps: false });
            let from = usize::from(timed);
            let axes = (from..self.form.cells.min(from + 3)).collect();
            return Some(motion(time, axes, (from + 3..self.form.cells).collect()));
        };
        let named = || Some(motion(None, vec![self.place(self.ask.axis.as_deref()?).ok()?], Vec::new()));
        layout(header).or_else(named)
    }

    /// Makes a column the vertical: an axis by its letter, any column by its name.
    fn vertical(&self, layout: &mut Layout, wanted: &str) -> Result<usize, RecordError> {
        let letter = ["x", "y", "z"].iter().position(|l| *l == plain(wanted)).filter(|_| layout.axes.len() == 3);
        let at = letter.map_or_else(|| self.place(wanted), |i| Ok(layout.axes[i]))?;
        if let Some(place) = layout.axes.iter().position(|axis| *axis == at) {
            return Ok(place);
        }
        if !layout.ignored.contains(&at) {
            // Of a column whose header says nothing the unit is open, too.
            (layout.signal, layout.unit) = (Signal::Acceleration, None);
        }
        layout.axes = vec![at];
        Ok(0)
    }

    fn place(&self, wanted: &str) -> Result<usize, RecordError> {
        let found = self.names.iter().position(|name| plain(name) == plain(wanted));
        found.ok_or_else(|| RecordError::NoSuchColumn { wanted: wanted.to_owned(), columns: self.shown() })
    }

    /// As a message lists them.
    fn shown(&self) -> String {
        const SHOWN: usize = 12;
        let shown = self.names.iter().take(SHOWN).map(|n| format!("\"{}\"", quoted(n)));
        let more = (self.names.len() > SHOWN).then(|| "…".to_owned());
        shown.chain(more).collect::<Vec<_>>().join(", ")
    }
}
