//! The straight lines that say how much heat the house loses or gains at an outdoor temperature.

use crate::quantity::{Celsius, Kilowatts};

/// Heat loss over outdoor temperature: through the design load at the design temperature, zero where gains suffice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatingLoadLine {
    /// Outdoor design temperature, colder than `zero_load_outdoor`.
    pub design_outdoor: Celsius,
    /// Heat loss at the design temperature, above zero.
    pub design_load: Kilowatts,
    /// Outdoor temperature at which gains alone keep the house warm.
    pub zero_load_outdoor: Celsius,
}

impl HeatingLoadLine {
    /// Heating load at an outdoor temperature: `Q(T) = Q_d (T_0 - T) / (T_0 - T_d)` below `T_0`, else zero.
    ///
    /// # Source
    /// Straight building load line as in 10 CFR 430 Subpart B Appendix M1 and EN 14825.
    #[must_use]
    pub fn at(&self, outdoor: Celsius) -> Kilowatts {
        if outdoor >= self.zero_load_outdoor {
            return Kilowatts::ZERO;
        }
        self.design_load
            * ((self.zero_load_outdoor - outdoor).0
                / (self.zero_load_outdoor - self.design_outdoor).0)
    }
}

/// Sensible heat gain over outdoor temperature: through the design load, zero at the zero-load temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoolingLoadLine {
    /// Outdoor design temperature, warmer than `zero_load_outdoor`.
    pub design_outdoor: Celsius,
    /// Sensible load at the design temperature, above zero.
    pub design_sensible: Kilowatts,
    /// Outdoor temperature up to which no cooling is called for.
    pub zero_load_outdoor: Celsius,
}

impl CoolingLoadLine {
    /// Sensible load at an outdoor temperature: `Qs(T) = Qs_d (T - T_c0) / (T_cd - T_c0)` above `T_c0`, else zero.
    ///
    /// # Source
    /// Straight load line, common practice; the cooling building load of Appendix M1 and EN 14825 has the same form.
    #[must_use]
    pub fn at(&self, outdoor: Celsius) -> Kilowatts {
        if outdoor <= self.zero_load_outdoor {
            return Kilowatts::ZERO;
        }
        self.design_sensible
            * ((outdoor - self.zero_load_outdoor).0
                / (self.design_outdoor - self.zero_load_outdoor).0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_line_runs_through_design_and_zero() {
        let line = HeatingLoadLine {
            design_outdoor: Celsius(-18.0),
            design_load: Kilowatts(9.2),
            zero_load_outdoor: Celsius(15.0),
        };
        assert!((line.at(Celsius(-18.0)).0 - 9.2).abs() < 1e-12);
        assert!((line.at(Celsius(-1.5)).0 - 4.6).abs() < 1e-12);
        assert_eq!(line.at(Celsius(15.0)), Kilowatts::ZERO);
        assert_eq!(line.at(Celsius(25.0)), Kilowatts::ZERO);
    }
}
