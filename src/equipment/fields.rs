//! The declared figures of a model as a list of named columns, for files, criteria and tables alike.

use super::Model;

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FieldKind {
    /// A number.
    Number,
    /// A word.
    Text,
    /// Yes or no.
    Flag,
}

/// A column's value in one model.
#[derive(Clone, Debug, PartialEq)]
pub enum FieldValue<'a> {
    /// A number in the unit of the column's name.
    Number(f64),
    /// A word.
    Text(&'a str),
    /// Yes or no.
    Flag(bool),
}

/// One column of `units.csv`.
pub struct UnitField {
    /// The column's name, which carries its unit.
    pub name: &'static str,
    /// What it holds.
    pub kind: FieldKind,
    /// Its value in a model; `None`: not published.
    pub get: fn(&Model) -> Option<FieldValue<'_>>,
}

macro_rules! fields {
    ($($name:literal $kind:ident $model:ident => $value:expr;)+) => {
        /// Every declared column of `units.csv`, in file order, without the key and the source.
        pub const UNIT_FIELDS: &[UnitField] = &[
            $(UnitField { name: $name, kind: FieldKind::$kind, get: |$model| $value.map(FieldValue::$kind) }),+
        ];
    };
}

fields! {
    "maker" Text m => m.maker.as_deref();
    "outdoor_model" Text m => m.outdoor_model.as_deref();
    "indoor_model" Text m => m.indoor_model.as_deref();
    "form" Text m => Some(m.form.name());
    "refrigerant" Text m => m.refrigerant.as_deref();
    "certified" Flag m => m.certified;
    "hspf" Number m => m.hspf;
    "hspf2" Number m => m.hspf2;
    "scop" Number m => m.scop;
    "seer" Number m => m.seer;
    "seer2" Number m => m.seer2;
    "operates_to_c" Number m => m.operates_to.map(|t| t.0);
    "airflow_l_s" Number m => m.airflow.map(|v| v.0);
    "external_static_pa" Number m => m.external_static.map(|p| p.0);
    "sound_db_a" Number m => m.sound_db_a;
    "circuit_ampacity_a" Number m => m.circuit_ampacity_a;
    "standby_w" Number m => m.standby_w;
    "degradation_heating" Number m => m.degradation_heating;
    "degradation_cooling" Number m => m.degradation_cooling;
    "price" Number m => m.price;
    "currency" Text m => m.currency.as_deref();
}

/// The column with this name, if there is one.
#[must_use]
pub fn unit_field(name: &str) -> Option<&'static UnitField> {
    UNIT_FIELDS.iter().find(|field| field.name == name)
}
