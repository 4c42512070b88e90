//! A motion ratio from the lengths of one arm.

use super::Fault;
use crate::base::units::{Angle, Length, Quantity, Ratio};

/// Rise of the ball joint for each rise of the wheel when the instant centre is not known: swing arms from 1.2 m long to
/// parallel arms, 0.1 m from joint to wheel plane. Source `DERIVED`.
pub const JOINT_OVER_WHEEL: f64 = 0.96;
/// It is surely within this of [`JOINT_OVER_WHEEL`].
pub const JOINT_OVER_WHEEL_WITHIN: f64 = 0.04;

/// The lengths and angles of one arm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ArmLengths {
    /// a: pivot's axis to the lower spring seat.
    pub seat: Length,
    /// b: pivot's axis to the ball joint, or to the wheel centre of a trailing arm.
    pub joint: Length,
    /// θ: between the spring's axis and the way its seat moves, which is square to the line from pivot to seat.
    pub off_square: Angle,
    /// α: the line from pivot to joint against level.
    pub slope: Angle,
    /// j: rise of the joint for each rise of the wheel.
    pub joint_over_wheel: Ratio,
}

impl ArmLengths {
    /// r = (a cos θ)/(b cos α) · j, spring over wheel. It says nothing about r′. Source `DERIVED` (virtual work); `MIL` ch. 16.
    ///
    /// # Errors
    /// [`Fault::NoArm`] when a length is not above zero, an angle not below 90°, or the result not finite.
    ///
    /// ```
    /// use springwright::base::units::{Angle, Length, Quantity, Ratio};
    /// use springwright::trade::linkage::ArmLengths;
    /// let arm = ArmLengths {
    ///     seat: Length::from_si(0.245),
    ///     joint: Length::from_si(0.385),
    ///     off_square: Angle::from_si(14_f64.to_radians()),
    ///     slope: Angle::from_si(6_f64.to_radians()),
    ///     joint_over_wheel: Ratio::from_si(0.96),
    /// };
    /// assert!(arm.ratio().is_ok_and(|r| (r.si() - 0.5960).abs() < 1e-4));
    /// ```
    pub fn ratio(&self) -> Result<Ratio, Fault> {
        let (seat, joint) = (self.seat.si() * self.off_square.si().cos(), self.joint.si() * self.slope.si().cos());
        let quarter = std::f64::consts::FRAC_PI_2;
        let turned = [self.off_square, self.slope].iter().all(|a| a.si().abs() < quarter);
        let ratio = seat / joint * self.joint_over_wheel.si();
        let is_one = turned && self.joint.si() > 0.0 && ratio.is_finite() && ratio > 0.0;
        if is_one { Ok(Ratio::from_si(ratio)) } else { Err(Fault::NoArm) }
    }
}

/// j = (y_joint − y_IC)/(y_wheel − y_IC), each outward from the centreline. Source `DERIVED`; `MIL` ch. 17.
///
/// # Errors
/// [`Fault::NoArm`] when the instant centre is not inside both.
pub fn joint_over_wheel(joint: Length, wheel: Length, instant_centre: Length) -> Result<Ratio, Fault> {
    let (of_joint, of_wheel) = (joint.si() - instant_centre.si(), wheel.si() - instant_centre.si());
    let ratio = of_joint / of_wheel;
    if ratio.is_finite() && ratio > 0.0 { Ok(Ratio::from_si(ratio)) } else { Err(Fault::NoArm) }
}
