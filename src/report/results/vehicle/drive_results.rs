//! What recorded drives showed.

use crate::base::language::tr;
use crate::report::results::By;
use crate::report::results::collect::{Out, then};
use crate::report::results::row::{Row, put, rows, si};
use crate::solve::answer::{Answer, DriveMeasured, DrivesMeasured};

const BODY: &str = "body acceleration, + up, at the sensor's position";

static ONE: &[Row<DriveMeasured>] = rows! { DriveMeasured;
    "felt", "weighted acceleration (W_k), rms", Acceleration, BODY;
        "as recorded", "R2631", |d| si(d.felt), by: By::Reading;
    "rms", "acceleration, rms, unweighted", Acceleration, BODY;
        "as recorded", "R2631", |d| si(d.rms), by: By::Reading;
};

static BOTH: &[Row<DrivesMeasured>] = rows! { DrivesMeasured;
    "ratio", "acceleration after ÷ before", Ratio, "weighted if both recordings are weighted, otherwise unweighted";
        "a_after / a_before", "DERIVED", |d| si(d.ratio()),
        with: |d| put!["a_after": d.compared()?[1], "a_before": d.compared()?[0]];
};

/// All of them.
pub(in crate::report::results) fn add(out: &mut Out, answer: &Answer) {
    out.of_vehicle("drive.before", &then(tr("before")), ONE, answer, |v| Some(&v.whole.drives.each.before));
    out.of_vehicle("drive.after", &then(tr("after")), ONE, answer, |v| Some(&v.whole.drives.each.after));
    out.of_vehicle("drive", "", BOTH, answer, |v| Some(&v.whole.drives));
}
