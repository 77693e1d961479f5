//! What a recomputation took as given although nobody published it.

use std::fmt;

use crate::quantity::{Celsius, Kilowatts};

/// Something taken as given.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Assumption {
    /// The heating design load follows from the capacity at -7 °C, as if the bivalent temperature were -7 °C. It may be
    /// less, as a capacity at -7 °C may exceed the load there.
    HeatingDesignLoad {
        /// Capacity at -7 °C over 23/26.
        at_most: Kilowatts,
        /// The least that is reckoned with, from the capacity at +2 °C.
        at_least: Kilowatts,
    },
    /// The cooling design load is the capacity at 35 °C.
    CoolingDesignLoad(Kilowatts),
    /// No operating limit is published; the coldest published point stands for it.
    OperationLimit(Celsius),
    /// No degradation coefficient is published; the procedure's default is used.
    DefaultDegradation(f64),
    /// `standby_w` is taken as the power in standby.
    StandbyPower(Kilowatts),
    /// Electric input in this mode is not published: zero, and up to the value given.
    UnknownPower {
        /// Name of the mode.
        mode: &'static str,
        /// The largest among 24 certified air-to-air units.
        up_to: Kilowatts,
    },
    /// The test at 35 °F is replaced by the procedure's frost default.
    FrostDefault {
        /// Name of the test.
        test: &'static str,
    },
    /// Full speed at 47 °F is estimated from the test at 17 °F.
    FullSpeedEstimated,
    /// Full speed in cooling is `maximum`, though `rated` is published at 95 °F too and may be what was tested as full.
    FullSpeedIsMaximum,
    /// Whether the unit defrosts on demand is not published; the credit for it is none, and up to 3 %.
    DefrostCreditUnknown,
}

impl fmt::Display for Assumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::HeatingDesignLoad { at_most, at_least } => write!(
                f,
                "heating design load {:.2} kW: capacity at -7 °C as the bivalent point, over 23/26; down to {:.2} kW",
                at_most.0, at_least.0
            ),
            Self::CoolingDesignLoad(load) => {
                write!(f, "cooling design load {:.2} kW: capacity at 35 °C", load.0)
            }
            Self::OperationLimit(limit) => {
                write!(
                    f,
                    "operation limit {:.1} °C: coldest published point",
                    limit.0
                )
            }
            Self::DefaultDegradation(coefficient) => {
                write!(
                    f,
                    "degradation coefficient {coefficient:.2}: default of the procedure"
                )
            }
            Self::StandbyPower(power) => {
                write!(f, "standby {:.0} W: the unit's standby_w", power.0 * 1000.0)
            }
            Self::UnknownPower { mode, up_to } => {
                write!(
                    f,
                    "{mode} power not published: 0 W, and up to {:.0} W",
                    up_to.0 * 1000.0
                )
            }
            Self::FrostDefault { test } => {
                write!(f, "{test} not published: frost default of the procedure")
            }
            Self::FullSpeedEstimated => {
                write!(
                    f,
                    "full speed at 47 °F not published: estimated from 17 °F as the procedure does"
                )
            }
            Self::FullSpeedIsMaximum => {
                write!(
                    f,
                    "full speed in cooling is the maximum; a test of less at 95 °F would rate higher or lower"
                )
            }
            Self::DefrostCreditUnknown => {
                write!(f, "demand defrost not published: no credit, and up to 3 %")
            }
        }
    }
}
