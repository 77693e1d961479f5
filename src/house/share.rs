//! A part of a house that one unit of several serves.

use super::House;

impl House {
    /// The house with every load and moisture gain times `share`, above 0 to 1, the rest as it is: what one unit of
    /// several serves.
    #[must_use]
    pub fn with_share(&self, share: f64) -> Self {
        let mut house = self.clone();
        let heating = &mut house.heating.load;
        heating.design_load = heating.design_load * share;
        if let Some(cooling) = &mut house.cooling {
            cooling.load.design_sensible = cooling.load.design_sensible * share;
        }
        if let Some(moisture) = &mut house.moisture {
            moisture.people_and_activities = moisture.people_and_activities * share;
            moisture.infiltration = moisture.infiltration * share;
            moisture.ventilation = moisture.ventilation * share;
            moisture.dehumidifier = moisture.dehumidifier * share;
        }
        house
    }
}
