//! The climates of Appendix M1: heating regions, their load lines, and fractional bins.
//!
//! A bin's fraction is its share of the season's hours with the bins warmer than the load line's zero left out, so the
//! fractions of a region sum to less than one. They weigh ratios and are never to be multiplied with a year's hours.

/// A heating region of the United States; ratings are stated for region IV.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Region {
    /// Mildest.
    I,
    /// Mild.
    II,
    /// Moderate.
    III,
    /// The region of the rating.
    IV,
    /// Coldest.
    V,
    /// Pacific coast.
    VI,
}

impl Region {
    /// Every region, in the order of the bin table's columns.
    pub const ALL: [Self; 6] = [Self::I, Self::II, Self::III, Self::IV, Self::V, Self::VI];

    /// Outdoor design temperature \[°F\], at which the load line reaches its design load.
    #[must_use]
    pub fn design_outdoor_f(self) -> f64 {
        self.parameters().design_outdoor_f
    }

    /// Outdoor temperature without heating load \[°F\].
    #[must_use]
    pub fn zero_load_f(self) -> f64 {
        self.parameters().zero_load_f
    }

    /// Design heating load as a multiple of the cooling capacity at 95 °F, for single-speed and two-capacity units.
    #[must_use]
    pub fn slope(self) -> f64 {
        self.parameters().slope
    }

    /// The same for variable-speed units.
    #[must_use]
    pub fn slope_variable_speed(self) -> f64 {
        self.parameters().slope_variable_speed
    }

    /// The region's bins, warmest first: outdoor temperature \[°F\] and fraction, without empty bins.
    pub fn bins(self) -> impl Iterator<Item = (f64, f64)> {
        HEATING_BINS
            .iter()
            .map(move |&(outdoor_f, fractions)| (outdoor_f, fractions[self as usize]))
            .filter(|&(_, fraction)| fraction > 0.0)
    }

    fn parameters(self) -> &'static Parameters {
        &PARAMETERS[self as usize]
    }
}

struct Parameters {
    design_outdoor_f: f64,
    zero_load_f: f64,
    slope: f64,
    slope_variable_speed: f64,
}

const fn parameters(
    design_outdoor_f: f64,
    zero_load_f: f64,
    slope: f64,
    slope_variable_speed: f64,
) -> Parameters {
    Parameters {
        design_outdoor_f,
        zero_load_f,
        slope,
        slope_variable_speed,
    }
}

/// # Source
/// 10 CFR 430 Subpart B Appendix M1, section 4.2, table of generalized climatic regions.
const PARAMETERS: [Parameters; 6] = [
    parameters(37.0, 58.0, 1.1, 1.03),
    parameters(27.0, 57.0, 1.06, 0.99),
    parameters(17.0, 56.0, 1.3, 1.21),
    parameters(5.0, 55.0, 1.15, 1.07),
    parameters(-10.0, 55.0, 1.16, 1.08),
    parameters(30.0, 57.0, 1.11, 1.03),
];

/// Outdoor temperature [°F] and fraction by region I to VI. The appendix begins at 62 °F with an empty bin.
///
/// # Source
/// 10 CFR 430 Subpart B Appendix M1, section 4.2, table of generalized climatic regions.
const HEATING_BINS: [(f64, [f64; 6]); 17] = [
    (57.0, [0.239, 0.0, 0.0, 0.0, 0.0, 0.0]),
    (52.0, [0.194, 0.163, 0.138, 0.103, 0.086, 0.215]),
    (47.0, [0.129, 0.143, 0.137, 0.093, 0.076, 0.204]),
    (42.0, [0.081, 0.112, 0.135, 0.1, 0.078, 0.141]),
    (37.0, [0.041, 0.088, 0.118, 0.109, 0.087, 0.076]),
    (32.0, [0.019, 0.056, 0.092, 0.126, 0.102, 0.034]),
    (27.0, [0.005, 0.024, 0.047, 0.087, 0.094, 0.008]),
    (22.0, [0.001, 0.008, 0.021, 0.055, 0.074, 0.003]),
    (17.0, [0.0, 0.002, 0.009, 0.036, 0.055, 0.0]),
    (12.0, [0.0, 0.0, 0.005, 0.026, 0.047, 0.0]),
    (7.0, [0.0, 0.0, 0.002, 0.013, 0.038, 0.0]),
    (2.0, [0.0, 0.0, 0.001, 0.006, 0.029, 0.0]),
    (-3.0, [0.0, 0.0, 0.0, 0.002, 0.018, 0.0]),
    (-8.0, [0.0, 0.0, 0.0, 0.001, 0.01, 0.0]),
    (-13.0, [0.0, 0.0, 0.0, 0.0, 0.005, 0.0]),
    (-18.0, [0.0, 0.0, 0.0, 0.0, 0.002, 0.0]),
    (-23.0, [0.0, 0.0, 0.0, 0.0, 0.001, 0.0]),
];

/// Outdoor temperature \[°F\] and fraction of the cooling season.
///
/// # Source
/// 10 CFR 430 Subpart B Appendix M1, section 4.1, table of fractional cooling bins.
pub const COOLING_BINS: [(f64, f64); 8] = [
    (67.0, 0.214),
    (72.0, 0.231),
    (77.0, 0.216),
    (82.0, 0.161),
    (87.0, 0.104),
    (92.0, 0.052),
    (97.0, 0.018),
    (102.0, 0.004),
];
