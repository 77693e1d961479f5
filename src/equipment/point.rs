//! One published performance point.

use super::SourceId;
use crate::quantity::{Celsius, Kilowatts, LitresPerSecond};

/// Declares an enum whose variants have a name in data files.
macro_rules! named {
    ($(#[$doc:meta])* $name:ident { $($(#[$variant_doc:meta])* $variant:ident = $text:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name { $($(#[$variant_doc])* $variant),+ }

        impl $name {
            /// Every variant, in the order of data files.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// The name used in data files.
            #[must_use]
            pub fn name(self) -> &'static str {
                match self { $(Self::$variant => $text),+ }
            }

            /// The variant with this name in data files.
            #[must_use]
            pub fn from_name(name: &str) -> Option<Self> {
                Self::ALL.iter().copied().find(|variant| variant.name() == name)
            }
        }
    };
}
pub(crate) use named;

named! {
    /// What the unit does at a point.
    Mode {
        /// Heat is delivered indoors.
        Heating = "heating",
        /// Heat and moisture are taken from indoors.
        Cooling = "cooling",
    }
}

named! {
    /// The compressor speed of a point, slowest first.
    Speed {
        /// The slowest speed at which the unit runs steadily.
        Minimum = "minimum",
        /// The speed of the rating tests.
        Rated = "rated",
        /// The fastest speed.
        Maximum = "maximum",
    }
}

named! {
    /// Whether the indoor fan's heat and power are part of the figures.
    FanBasis {
        /// Fan heat and power are counted.
        Net = "net",
        /// The figures are the refrigerant circuit's alone.
        Gross = "gross",
    }
}

named! {
    /// Whether the loss by frost and defrosting is part of the figures.
    FrostBasis {
        /// Averaged over whole defrost cycles.
        Included = "included",
        /// Steady, without frost.
        FrostFree = "frost_free",
    }
}

/// One published performance point: capacity and power at an outdoor temperature, a speed and an indoor condition.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Heating or cooling.
    pub mode: Mode,
    /// Compressor speed.
    pub speed: Speed,
    /// Outdoor dry bulb \[°C\].
    pub outdoor: Celsius,
    /// Dry bulb of the air entering the indoor coil \[°C\]; `None`: not published.
    pub indoor_dry_bulb: Option<Celsius>,
    /// Wet bulb of the air entering the indoor coil \[°C\]; `None`: not published.
    pub indoor_wet_bulb: Option<Celsius>,
    /// Heat delivered, or total (sensible and latent) heat removed \[kW\], above zero.
    pub capacity: Kilowatts,
    /// Electric input \[kW\], above zero.
    pub power: Kilowatts,
    /// Sensible share of the total cooling capacity, above 0 to 1; `None`: not published.
    pub sensible_heat_ratio: Option<f64>,
    /// Indoor airflow \[L/s\]; `None`: not published.
    pub airflow: Option<LitresPerSecond>,
    /// Whether the indoor fan is counted; `None`: not stated.
    pub fan_basis: Option<FanBasis>,
    /// Whether frost is counted; `None`: not stated.
    pub frost_basis: Option<FrostBasis>,
    /// Where the point comes from.
    pub source: SourceId,
}

impl Point {
    /// A point of which nothing but capacity and power at an outdoor temperature is published.
    #[must_use]
    pub fn new(
        (mode, speed, outdoor): (Mode, Speed, Celsius),
        capacity: Kilowatts,
        power: Kilowatts,
        source: SourceId,
    ) -> Self {
        Self {
            mode,
            speed,
            outdoor,
            indoor_dry_bulb: None,
            indoor_wet_bulb: None,
            capacity,
            power,
            sensible_heat_ratio: None,
            airflow: None,
            fan_basis: None,
            frost_basis: None,
            source,
        }
    }

    /// Heat moved per electricity used.
    #[must_use]
    pub fn cop(&self) -> f64 {
        self.capacity / self.power
    }

    /// The order of points in a unit: mode, speed, outdoor temperature, then indoor dry and wet bulb (not published
    /// first). Two points of one unit are never equal in it.
    #[must_use]
    pub fn compare_place(&self, other: &Self) -> std::cmp::Ordering {
        let or_first =
            |temperature: Option<Celsius>| temperature.map_or(f64::NEG_INFINITY, |t| t.0);
        (self.mode, self.speed)
            .cmp(&(other.mode, other.speed))
            .then(self.outdoor.0.total_cmp(&other.outdoor.0))
            .then(or_first(self.indoor_dry_bulb).total_cmp(&or_first(other.indoor_dry_bulb)))
            .then(or_first(self.indoor_wet_bulb).total_cmp(&or_first(other.indoor_wet_bulb)))
    }
}
