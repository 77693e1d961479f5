//! HSPF2: a heating season over fractional bins.

use super::{HeatingSystem, Operation, Regime, Region};

/// Outdoor temperatures at which a controller stops and restarts the compressor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CutOut {
    /// Falling to here stops it \[°F\].
    pub off_f: f64,
    /// Rising to here starts it again \[°F\].
    pub on_f: f64,
}

impl CutOut {
    /// Share of a bin in which the compressor runs: none at or below `off_f`, half up to `on_f`, then all.
    fn running_share(self, outdoor_f: f64) -> f64 {
        if outdoor_f <= self.off_f {
            0.0
        } else if outdoor_f <= self.on_f {
            0.5
        } else {
            1.0
        }
    }
}

/// What a heating season is computed for, beside the system.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatingConditions {
    /// Region; the rating is for IV.
    pub region: Region,
    /// Cooling capacity at 95 °F (test A or A2) \[Btu/h\], from which the heating load line is drawn.
    pub design_capacity_btu_h: f64,
    /// Low-temperature cut-out, where there is one.
    pub cut_out: Option<CutOut>,
    /// Credit for demand defrost, 1 without; see [`super::demand_defrost_credit`].
    pub defrost_credit: f64,
    /// Heat of a watt-hour of resistance heat \[Btu/Wh\].
    pub btu_per_wh: f64,
}

/// One bin of the heating season, weighted by its fraction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatingBin {
    /// Outdoor temperature \[°F\].
    pub outdoor_f: f64,
    /// Fraction of the season.
    pub fraction: f64,
    /// Building load, not weighted \[Btu/h\].
    pub load_btu_h: f64,
    /// How the load is met.
    pub regime: Regime,
    /// Share of the bin in which the compressor may run.
    pub running_share: f64,
    /// Electric input of the heat pump times fraction \[W\].
    pub compressor_w: f64,
    /// Resistance heat times fraction \[W\].
    pub resistance_w: f64,
}

/// A heating season, computed.
#[derive(Clone, Debug, PartialEq)]
pub struct HeatingSeason {
    /// The bins, warmest first.
    pub bins: Vec<HeatingBin>,
    defrost_credit: f64,
}

impl HeatingSeason {
    /// Sum of load times fraction \[Btu/h\].
    #[must_use]
    pub fn load_btu_h(&self) -> f64 {
        self.bins
            .iter()
            .map(|bin| bin.fraction * bin.load_btu_h)
            .sum()
    }

    /// Sum of the heat pump's input times fraction \[W\].
    #[must_use]
    pub fn compressor_w(&self) -> f64 {
        self.bins.iter().map(|bin| bin.compressor_w).sum()
    }

    /// Sum of resistance heat times fraction \[W\].
    #[must_use]
    pub fn resistance_w(&self) -> f64 {
        self.bins.iter().map(|bin| bin.resistance_w).sum()
    }

    /// Heating seasonal performance factor \[Btu/Wh\].
    #[must_use]
    pub fn hspf2(&self) -> f64 {
        self.load_btu_h() / (self.compressor_w() + self.resistance_w()) * self.defrost_credit
    }
}

/// The heating season of a system.
///
/// Load line `BL(T) = (Tzl - T)/(Tzl - Tod) · C · Q(95 °F)`. The heat pump carries what it can; a cut-out, or a full
/// operation no better than resistance heat, leaves the bin to resistance heat.
///
/// # Source
/// 10 CFR 430 Subpart B Appendix M1, section 4.2.
#[must_use]
pub fn heating_season(
    system: &impl HeatingSystem,
    conditions: &HeatingConditions,
) -> HeatingSeason {
    let region = conditions.region;
    let design_load = system.slope(region) * conditions.design_capacity_btu_h;
    let span_f = region.zero_load_f() - region.design_outdoor_f();
    let bins = region
        .bins()
        .map(|(outdoor_f, fraction)| {
            let load_btu_h = ((region.zero_load_f() - outdoor_f) / span_f * design_load).max(0.0);
            let operation = system.operation(outdoor_f, load_btu_h);
            let running_share = running_share(conditions, outdoor_f, &operation);
            let resistance =
                (load_btu_h - operation.delivered_btu_h * running_share) / conditions.btu_per_wh;
            HeatingBin {
                outdoor_f,
                fraction,
                load_btu_h,
                regime: operation.regime,
                running_share,
                compressor_w: operation.power_w * running_share * fraction,
                resistance_w: resistance * fraction,
            }
        })
        .collect();
    HeatingSeason {
        bins,
        defrost_credit: conditions.defrost_credit,
    }
}

fn running_share(conditions: &HeatingConditions, outdoor_f: f64, operation: &Operation) -> f64 {
    let no_better_than_resistance =
        operation.delivered_btu_h < conditions.btu_per_wh * operation.power_w;
    if operation.yields_to_resistance && no_better_than_resistance {
        return 0.0;
    }
    conditions
        .cut_out
        .map_or(1.0, |cut_out| cut_out.running_share(outdoor_f))
}
