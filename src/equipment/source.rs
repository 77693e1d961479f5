//! Where a number comes from.

/// Stands for one source within a catalog; the catalog knows its key and text.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SourceId(pub u32);

/// What stands behind a number, from a laboratory's report to a demo's invention.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SourceKind {
    /// Measured by the procedure of a published standard.
    StandardTest,
    /// Measured in a laboratory outside a rating procedure.
    Laboratory,
    /// Declared by the maker, unverified.
    Declared,
    /// Stated in a supplier's quote.
    Quote,
    /// A map that stands for a class of units, not for one that can be bought.
    Generic,
    /// Made up for a demonstration.
    Invented,
}

impl SourceKind {
    /// Every kind.
    pub const ALL: [Self; 6] = [
        Self::StandardTest,
        Self::Laboratory,
        Self::Declared,
        Self::Quote,
        Self::Generic,
        Self::Invented,
    ];

    /// The name used in data files.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::StandardTest => "standard_test",
            Self::Laboratory => "laboratory",
            Self::Declared => "declared",
            Self::Quote => "quote",
            Self::Generic => "generic",
            Self::Invented => "invented",
        }
    }

    /// The kind with this name in data files.
    #[must_use]
    pub fn from_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.name() == name)
    }
}

/// A publication, register, quote or invention that numbers were taken from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// Short name by which units and points refer to it.
    pub key: String,
    /// Title of the publication.
    pub title: String,
    /// Who published it.
    pub publisher: Option<String>,
    /// Year of publication.
    pub year: Option<i32>,
    /// Where to find it: a document number, a table, an address.
    pub reference: Option<String>,
    /// Terms under which the numbers may be passed on.
    pub licence: Option<String>,
    /// What stands behind the numbers.
    pub kind: SourceKind,
    /// What a reader must know of them: how points were assigned, converted or chosen.
    pub note: Option<String>,
}
