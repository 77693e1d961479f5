//! Rows of `units.csv`.

use super::cells::{Cells, Limits, Place};
use super::header::{
    CUBIC_FEET_PER_MINUTE, CUBIC_METRES_PER_HOUR, Column, FAHRENHEIT, Header, other, plain, si,
};
use crate::equipment::{Form, Model, SourceId};
use crate::quantity::{Celsius, LitresPerSecond, Pascals};

/// The columns of `units.csv`.
pub const UNIT_COLUMNS: &[Column] = &[
    plain("unit"),
    plain("maker"),
    plain("outdoor_model"),
    plain("indoor_model"),
    plain("form"),
    plain("refrigerant"),
    plain("certified"),
    plain("hspf"),
    plain("hspf2"),
    plain("scop"),
    plain("seer"),
    plain("seer2"),
    si("operates_to_c", "operates_to"),
    other("operates_to_f", "operates_to", FAHRENHEIT),
    si("airflow_l_s", "airflow"),
    other("airflow_cfm", "airflow", CUBIC_FEET_PER_MINUTE),
    other("airflow_m3_h", "airflow", CUBIC_METRES_PER_HOUR),
    si("external_static_pa", "external_static"),
    plain("sound_db_a"),
    plain("circuit_ampacity_a"),
    plain("standby_w"),
    plain("degradation_heating"),
    plain("degradation_cooling"),
    plain("price"),
    plain("currency"),
    plain("source"),
    plain("as_written"),
];

/// The columns that `units.csv` must have.
pub(super) const REQUIRED: &[&str] = &["unit", "form", "source"];

/// Operating limits outside this range are slips, such as °F in a column of °C; the choice is ours.
const OPERATING_LIMITS: Limits = Limits::Within(-70.0, 30.0);

/// Where each column is.
pub(super) struct Places {
    key: Place,
    texts: [Place; 5],
    form: Place,
    certified: Place,
    ratings: [Place; 5],
    operates_to: Place,
    airflow: Place,
    external_static: Place,
    sound: Place,
    ampacity: Place,
    standby: Place,
    degradation: [Place; 2],
    price: Place,
    source: Place,
    as_written: Place,
}

impl Places {
    pub(super) fn of(header: &Header) -> Self {
        let at = |quantity| header.place(quantity);
        Self {
            key: at("unit"),
            texts: [
                "maker",
                "outdoor_model",
                "indoor_model",
                "refrigerant",
                "currency",
            ]
            .map(at),
            form: at("form"),
            certified: at("certified"),
            ratings: ["hspf", "hspf2", "scop", "seer", "seer2"].map(at),
            operates_to: at("operates_to"),
            airflow: at("airflow"),
            external_static: at("external_static"),
            sound: at("sound_db_a"),
            ampacity: at("circuit_ampacity_a"),
            standby: at("standby_w"),
            degradation: ["degradation_heating", "degradation_cooling"].map(at),
            price: at("price"),
            source: at("source"),
            as_written: at("as_written"),
        }
    }

    /// The key of the row's entry, if it has one.
    pub(super) fn key<'a>(&self, cells: &mut Cells<'a>) -> Option<&'a str> {
        cells.needed_text(self.key, "the unit's key")
    }

    /// Reads a row; `None` where anything in it is wrong.
    ///
    /// - `source_id`  finds a source by its key, or reports that there is none
    pub(super) fn read(
        &self,
        key: &str,
        cells: &mut Cells<'_>,
        source_id: &mut impl FnMut(&mut Cells<'_>, Place, &str) -> Option<SourceId>,
    ) -> Option<(Model, Option<String>)> {
        if !cells.is_whole() {
            return None;
        }
        let [maker, outdoor_model, indoor_model, refrigerant, currency] =
            self.texts.map(|place| cells.text(place).map(str::to_owned));
        let forms = Form::ALL.iter().map(|form| form.name());
        let form = cells.needed_word(self.form, Form::from_name, forms);
        let certified = cells.word(self.certified, yes_or_no, ["yes", "no"].into_iter());
        let [hspf, hspf2, scop, seer, seer2] = self
            .ratings
            .map(|place| cells.number(place, Limits::AboveZero));
        let operates_to = cells.number(self.operates_to, OPERATING_LIMITS);
        let airflow = cells.number(self.airflow, Limits::AboveZero);
        let external_static = cells.number(self.external_static, Limits::ZeroOrAbove);
        let sound_db_a = cells.number(self.sound, Limits::AboveZero);
        let circuit_ampacity_a = cells.number(self.ampacity, Limits::AboveZero);
        let standby_w = cells.number(self.standby, Limits::ZeroOrAbove);
        let [degradation_heating, degradation_cooling] = self
            .degradation
            .map(|place| cells.number(place, Limits::BelowOne));
        let price = cells.number(self.price, Limits::ZeroOrAbove);
        let source = cells.needed_text(self.source, "the key of a source");
        let source = source.and_then(|key| source_id(cells, self.source, key));
        let model = Model {
            key: key.to_owned(),
            maker,
            outdoor_model,
            indoor_model,
            form: form?,
            refrigerant,
            certified,
            hspf,
            hspf2,
            scop,
            seer,
            seer2,
            operates_to: operates_to.map(Celsius),
            airflow: airflow.map(LitresPerSecond),
            external_static: external_static.map(Pascals),
            sound_db_a,
            circuit_ampacity_a,
            standby_w,
            degradation_heating,
            degradation_cooling,
            price,
            currency,
            source: source?,
        };
        let as_written = cells.take_as_written(self.as_written);
        cells.is_sound().then_some((model, as_written))
    }
}

fn yes_or_no(word: &str) -> Option<bool> {
    match word.to_ascii_lowercase().as_str() {
        "yes" => Some(true),
        "no" => Some(false),
        _ => None,
    }
}
