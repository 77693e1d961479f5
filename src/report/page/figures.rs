//! The figures of a unit as a page shows them, each with the place in the JSON answer that it comes from.
//!
//! A figure's `from` is a name such as `heating.margin`, or the sum or the quotient of such names: whoever has the answer
//! as data can find or recompute every number on the page.

use crate::heating::BalancePoint;
use crate::quantity::{Celsius, KilogramsPerHour, Kilowatts, UnitSystem, fixed};
use crate::report::answer::{CoolingAnswer, HeatingAnswer};
use crate::report::shortlist_table::unknown;
use crate::study::Judged;

/// One figure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Figure {
    /// What it is.
    pub label: &'static str,
    /// The number without its unit; `?` where it is not known.
    pub text: String,
    /// Its unit.
    pub unit: &'static str,
    /// Where it stands in the JSON answer.
    pub from: &'static str,
}

/// Figures under one head.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FigureGroup {
    /// Their head.
    pub title: &'static str,
    /// The figures.
    pub figures: Vec<Figure>,
}

/// Writes figures in the reader's units.
pub(super) struct Writer(pub UnitSystem);

impl Writer {
    fn figure(
        label: &'static str,
        text: Option<String>,
        unit: &'static str,
        from: &'static str,
    ) -> Figure {
        Figure {
            label,
            text: text.unwrap_or_else(unknown),
            unit,
            from,
        }
    }

    fn power(&self, label: &'static str, value: Option<f64>, from: &'static str) -> Figure {
        let text = value.map(|value| self.0.bare_power(Kilowatts(value)));
        Self::figure(label, text, self.0.power_unit(), from)
    }

    fn temperature(&self, label: &'static str, value: Option<f64>, from: &'static str) -> Figure {
        let text = value.map(|value| self.0.bare_temperature(Celsius(value)));
        Self::figure(label, text, self.0.temperature_unit(), from)
    }

    fn whole(
        label: &'static str,
        value: Option<f64>,
        unit: &'static str,
        from: &'static str,
    ) -> Figure {
        Self::figure(label, value.map(|value| fixed(value, 0)), unit, from)
    }

    fn share(
        label: &'static str,
        value: Option<f64>,
        decimals: usize,
        from: &'static str,
    ) -> Figure {
        let text = value.map(|value| fixed(value * 100.0, decimals));
        Self::figure(label, text, "%", from)
    }

    fn water(&self, label: &'static str, litres: Option<f64>, from: &'static str) -> Figure {
        let text = litres.map(|litres| self.0.bare_water_per_year(litres));
        Self::figure(label, text, self.0.water_per_year_unit(), from)
    }

    pub(super) fn capacity(&self, heating: &HeatingAnswer) -> Figure {
        self.power(
            "capacity at the design temperature",
            heating.capacity_at_design_kw,
            "heating.capacity_at_design_kw",
        )
    }

    pub(super) fn margin(heating: &HeatingAnswer) -> Figure {
        let text = heating.margin.map(|margin| {
            let text = fixed(margin * 100.0, 0);
            if margin >= 0.0 {
                format!("+{text}")
            } else {
                text
            }
        });
        Self::figure("margin above the design load", text, "%", "heating.margin")
    }

    /// The balance point; where it lies somewhere below the coldest published point, that is said.
    pub(super) fn balance(&self, heating: &HeatingAnswer, balance: BalancePoint) -> Figure {
        match balance {
            BalancePoint::BelowColdestPoint(coldest) => Self::figure(
                "balance point",
                Some(format!("below {}", self.0.bare_temperature(coldest))),
                self.0.temperature_unit(),
                "heating.coldest_point_c",
            ),
            BalancePoint::AtOperatingLimit(_) => self.temperature(
                "balance point, where it stops",
                heating.balance_point_c,
                "heating.balance_point_c",
            ),
            BalancePoint::At(_) | BalancePoint::Unproven => self.temperature(
                "balance point",
                heating.balance_point_c,
                "heating.balance_point_c",
            ),
        }
    }

    pub(super) fn seasonal_cop(heating: &HeatingAnswer) -> Option<Figure> {
        let season = heating.season.as_ref()?;
        let text = season.seasonal_cop.map(|cop| fixed(cop, 2));
        Some(Self::figure("winter COP", text, "", "heating.seasonal_cop"))
    }

    pub(super) fn annual(judged: &Judged, heating: &HeatingAnswer) -> Option<Figure> {
        heating.season.as_ref()?;
        let value = judged.annual_electricity().map(|energy| energy.0);
        let from = if judged.cooling.is_some() {
            "heating.electricity_kwh + heating.backup_kwh + cooling.electricity_kwh"
        } else {
            "heating.electricity_kwh + heating.backup_kwh"
        };
        Some(Self::whole(
            "electricity a year, backup included",
            value,
            "kWh",
            from,
        ))
    }

    pub(super) fn cycling_share(cooling: &CoolingAnswer) -> Option<Figure> {
        let season = cooling.season.as_ref()?;
        Some(Self::share(
            "share of these in which it cycles",
            share_of(season.cycling_hours, season.cooling_hours),
            0,
            "cooling.cycling_hours / cooling.cooling_hours",
        ))
    }

    pub(super) fn humid_share(cooling: &CoolingAnswer) -> Option<Figure> {
        let season = cooling.season.as_ref()?;
        Some(Self::share(
            "share of the hours with a call that are humid",
            share_of(cooling.humidity.as_ref()?.humid_hours, season.cooling_hours),
            0,
            "cooling.humid_hours / cooling.cooling_hours",
        ))
    }

    pub(super) fn dehumidification(&self, cooling: &CoolingAnswer) -> Option<Figure> {
        Some(self.water(
            "dehumidification that would hold the limit, a year",
            cooling.humidity.as_ref()?.dehumidification_l_per_year,
            "cooling.dehumidification_l_per_year",
        ))
    }

    /// All figures of a unit, by season.
    pub(super) fn groups(
        &self,
        judged: &Judged,
        heating: &HeatingAnswer,
        cooling: &CoolingAnswer,
    ) -> Vec<FigureGroup> {
        let mut groups = vec![FigureGroup {
            title: "Winter",
            figures: self.winter(judged, heating),
        }];
        if cooling.design.is_some() {
            groups.push(FigureGroup {
                title: "Summer",
                figures: self.summer(cooling),
            });
        }
        if cooling.humidity.is_some() {
            groups.push(FigureGroup {
                title: "Moisture in summer",
                figures: self.moisture(cooling),
            });
        }
        let year: Vec<Figure> = Self::annual(judged, heating)
            .into_iter()
            .chain(heating.season.as_ref().map(|season| {
                Self::whole(
                    "standby besides, in hours without a call",
                    season.standby_kwh,
                    "kWh",
                    "heating.standby_kwh",
                )
            }))
            .collect();
        if !year.is_empty() {
            groups.push(FigureGroup {
                title: "The year",
                figures: year,
            });
        }
        groups
    }

    fn winter(&self, judged: &Judged, heating: &HeatingAnswer) -> Vec<Figure> {
        let mut figures = vec![
            self.power(
                "load at the design temperature",
                Some(heating.load_at_design_kw),
                "heating.load_at_design_kw",
            ),
            self.capacity(heating),
            Self::margin(heating),
            self.balance(heating, judged.heating.balance_point),
            self.temperature(
                "coldest published point",
                heating.coldest_point_c,
                "heating.coldest_point_c",
            ),
        ];
        let Some(season) = &heating.season else {
            return figures;
        };
        figures.extend(Self::seasonal_cop(heating));
        figures.extend([
            Self::whole(
                "heat asked for",
                Some(season.load_kwh),
                "kWh",
                "heating.load_kwh",
            ),
            Self::share(
                "carried by the heat pump",
                season.share_carried,
                1,
                "heating.share_carried",
            ),
            Self::whole(
                "backup heat",
                Some(season.backup_kwh),
                "kWh",
                "heating.backup_kwh",
            ),
            Self::whole(
                "electricity of the heat pump",
                Some(season.electricity_kwh),
                "kWh",
                "heating.electricity_kwh",
            ),
            Self::whole(
                "hours that ask for heat",
                Some(season.heating_hours),
                "h",
                "heating.heating_hours",
            ),
            Self::whole(
                "hours below the balance point",
                Some(season.hours_below_balance),
                "h",
                "heating.hours_below_balance",
            ),
            Self::whole(
                "hours colder than published",
                Some(season.unproven_hours),
                "h",
                "heating.unproven_hours",
            ),
            Self::whole(
                "hours cycling",
                season.cycling_hours,
                "h",
                "heating.cycling_hours",
            ),
        ]);
        figures
    }

    fn summer(&self, cooling: &CoolingAnswer) -> Vec<Figure> {
        let mut figures = Vec::new();
        if let Some(design) = &cooling.design {
            figures.extend([
                self.power(
                    "sensible load at the design temperature",
                    Some(design.sensible_at_design_kw),
                    "cooling.sensible_at_design_kw",
                ),
                self.power(
                    "sensible capacity there",
                    design.sensible_capacity_at_design_kw,
                    "cooling.sensible_capacity_at_design_kw",
                ),
                self.power(
                    "its minimum there, sensible",
                    design.minimum_sensible_kw,
                    "cooling.minimum_sensible_kw",
                ),
            ]);
        }
        let Some(season) = &cooling.season else {
            return figures;
        };
        figures.push(Self::whole(
            "hours with a call for cooling",
            Some(season.cooling_hours),
            "h",
            "cooling.cooling_hours",
        ));
        figures.push(Self::whole(
            "of these it cycles in",
            season.cycling_hours,
            "h",
            "cooling.cycling_hours",
        ));
        figures.extend(Self::cycling_share(cooling));
        figures.extend([
            Self::whole(
                "hours hotter than published",
                Some(season.unproven_hours),
                "h",
                "cooling.unproven_hours",
            ),
            Self::whole(
                "sensible heat removed",
                season.sensible_kwh,
                "kWh",
                "cooling.sensible_kwh",
            ),
            Self::whole(
                "sensible load left unmet",
                season.shortfall_kwh,
                "kWh",
                "cooling.shortfall_kwh",
            ),
            Self::whole(
                "electricity",
                season.electricity_kwh,
                "kWh",
                "cooling.electricity_kwh",
            ),
        ]);
        figures
    }

    fn moisture(&self, cooling: &CoolingAnswer) -> Vec<Figure> {
        let Some(humidity) = &cooling.humidity else {
            return Vec::new();
        };
        let mut figures = vec![Self::whole(
            "humid hours with a call",
            humidity.humid_hours,
            "h",
            "cooling.humid_hours",
        )];
        figures.extend(Self::humid_share(cooling));
        figures.extend([
            Self::whole(
                "humid hours without a call, whatever the unit",
                humidity.humid_hours_without_call,
                "h",
                "cooling.humid_hours_without_call",
            ),
            Self::share(
                "highest relative humidity with a call",
                humidity.peak_rh,
                0,
                "cooling.peak_rh",
            ),
            self.water(
                "moisture that the unit removes",
                humidity.moisture_removed_kg,
                "cooling.moisture_removed_kg",
            ),
        ]);
        figures.extend(self.dehumidification(cooling));
        let peak = humidity
            .dehumidification_peak_l_per_day
            .map(|litres| self.0.bare_water_per_day(KilogramsPerHour(litres / 24.0)));
        figures.push(Self::figure(
            "the same at its peak",
            peak,
            self.0.water_per_day_unit(),
            "cooling.dehumidification_peak_l_per_day",
        ));
        if humidity.dehumidification_kwh.is_some() {
            figures.push(Self::whole(
                "its electricity",
                humidity.dehumidification_kwh,
                "kWh",
                "cooling.dehumidification_kwh",
            ));
        }
        figures
    }
}

/// Part of some hours; with no hours at all, none of them.
fn share_of(part: Option<f64>, hours: f64) -> Option<f64> {
    part.map(|part| if hours > 0.0 { part / hours } else { 0.0 })
}
