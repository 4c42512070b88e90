//! The spring as fitted and what acts with it: bump stop and air bag.

use super::record::{self, record};
use super::{BagFitted, Ends, LeafBy, Material, RateBy, SpringKind};
use crate::base::units::{Angle, Area, Entry, Force, Length, Pressure, Ratio, SpringRate, Stress, Volume};

record! {
    /// The spring as found on the vehicle.
    pub struct SpringFitted {
        /// What kind of spring.
        pub kind: SpringKind,
        /// Which way to a coil's rate counts.
        pub rate_by: RateBy,
        /// Its rate.
        pub rate: Entry<SpringRate>,
        /// Its rate repeated, to confirm a doubted one.
        pub confirm: Entry<SpringRate>,
        /// Its length at the reference height.
        pub fitted_length: Entry<Length>,
        /// Its length off the vehicle.
        pub free_length: Entry<Length>,
        /// The old spring's length with all coils touching.
        pub solid_length: Entry<Length>,
        /// Its wire and coils.
        pub wire: WireSizes,
        /// Two readings of a press.
        pub press: PressReadings,
        /// What if this number of coils were cut off?
        pub cut: Entry<Ratio>,
        /// The soft coil in line with it.
        pub helper: HelperCoil,
        /// Lengths and loads of a progressive coil.
        pub points: Vec<LoadPoint>,
        /// The torsion bar and its arm.
        pub bar: BarSizes,
        /// The leaf.
        pub leaf: LeafSizes,
    }

    /// Wire and coils of a coil spring.
    pub struct WireSizes {
        /// Steel.
        pub material: Material,
        /// How the ends are made.
        pub ends: Ends,
        /// Wire diameter, paint off.
        pub diameter: Entry<Length>,
        /// Outside diameter of the coil.
        pub outside_diameter: Entry<Length>,
        /// Active coils.
        pub active_coils: Entry<Ratio>,
        /// All coils.
        pub total_coils: Entry<Ratio>,
        /// Shear modulus of the steel.
        pub shear_modulus: Entry<Stress>,
        /// Tensile strength of the steel.
        pub tensile_strength: Entry<Stress>,
        /// Allowed shear stress as a share of tensile strength.
        pub allowed_share: Entry<Ratio>,
    }

    /// Two readings of a press that bracket the fitted length.
    pub struct PressReadings {
        /// Length at the first reading.
        pub first_length: Entry<Length>,
        /// Load there.
        pub first_load: Entry<Force>,
        /// Length at the second reading.
        pub second_length: Entry<Length>,
        /// Load there.
        pub second_load: Entry<Force>,
        /// True load over the load shown.
        pub gauge_factor: Entry<Ratio>,
    }

    /// A soft coil in line with the main one.
    pub struct HelperCoil {
        /// Its rate.
        pub rate: Entry<SpringRate>,
        /// Its free length.
        pub free_length: Entry<Length>,
        /// Its length with all coils touching.
        pub solid_length: Entry<Length>,
    }

    /// One point of a progressive coil.
    pub struct LoadPoint {
        /// Length of the spring.
        pub length: Entry<Length>,
        /// Load there.
        pub load: Entry<Force>,
    }

    /// A torsion bar and its arm.
    pub struct BarSizes {
        /// Diameter of the bar between its splines.
        pub diameter: Entry<Length>,
        /// Bore of a hollow bar.
        pub inside_diameter: Entry<Length>,
        /// Working length between the splines.
        pub length: Entry<Length>,
        /// From the bar's axis to the wheel's load, across.
        pub arm: Entry<Length>,
        /// Arm angle below level at the reference height.
        pub angle: Entry<Angle>,
        /// Shear modulus of the steel.
        pub shear_modulus: Entry<Stress>,
        /// Allowed shear stress.
        pub allowed_stress: Entry<Stress>,
    }

    /// A leaf by test or by its sizes.
    pub struct LeafSizes {
        /// Which way to its rate counts.
        pub by: LeafBy,
        /// Loads and heights.
        pub rows: Vec<LeafTestRow>,
        /// Eye to eye, flat.
        pub span: Entry<Length>,
        /// Length clamped to the axle.
        pub clamped: Entry<Length>,
        /// Width of the leaves.
        pub width: Entry<Length>,
        /// Thickness of one leaf.
        pub thickness: Entry<Length>,
        /// Number of leaves.
        pub leaves: Entry<Ratio>,
        /// How many of them are full length.
        pub full_length: Entry<Ratio>,
        /// Young's modulus of the steel.
        pub modulus: Entry<Stress>,
    }

    /// One row of a leaf test.
    pub struct LeafTestRow {
        /// Load added on one leaf.
        pub load: Entry<Force>,
        /// Height from frame to axle while loading.
        pub loading: Entry<Length>,
        /// Height at the same load while unloading.
        pub unloading: Entry<Length>,
    }

    /// The bump stop.
    pub struct Stop {
        /// The vehicle rides on it by design.
        pub by_design: bool,
        /// Its rate.
        pub rate: Entry<SpringRate>,
        /// Its squeeze and load, when it gets harder.
        pub rows: Vec<SqueezeRow>,
        /// How far it is squeezed for each unit of wheel travel.
        pub ratio: Entry<Ratio>,
        /// Between the two stops of a beam axle, if not as the springs.
        pub base: Entry<Length>,
    }

    /// One row of a bump stop's table.
    pub struct SqueezeRow {
        /// How far it is squeezed.
        pub squeeze: Entry<Length>,
        /// Load there.
        pub load: Entry<Force>,
    }

    /// An air bag that helps the spring; sizes at its set height.
    pub struct Bag {
        /// Whether it carries.
        pub fitted: BagFitted,
        /// Gauge pressure at its set height.
        pub pressure: Entry<Pressure>,
        /// Effective area.
        pub area: Entry<Area>,
        /// Area gained per length of compression.
        pub area_growth: Entry<Length>,
        /// Volume of air.
        pub volume: Entry<Volume>,
        /// How far it is compressed for each unit of wheel travel.
        pub ratio: Entry<Ratio>,
        /// Polytropic exponent.
        pub exponent: Entry<Ratio>,
        /// Between the two bags of a beam axle, if not as the springs.
        pub base: Entry<Length>,
    }
}
