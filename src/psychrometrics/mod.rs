//! Moist air by the equations of the ASHRAE Handbook.
