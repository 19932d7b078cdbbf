//! Where the convention on trade in endangered species lists orchids: the whole family in appendix II, few of it in I.
//!
//! It says where a name stands and nothing of what a consignment needs: that is for the authority of the country.

/// An orchid of appendix I: a genus, or one species of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FirstAppendix {
    pub genus: &'static str,
    /// As growers shorten it.
    pub short: &'static str,
    /// `None`: the whole genus.
    pub species: Option<&'static str>,
    /// What the species was called before, with its genus then.
    pub once: Option<(&'static str, &'static str)>,
    pub source: &'static str,
}

const GENUS: &str =
    "CITES Appendices: all Orchidaceae II, these genera and a few species I (older edition seen)";
const SPECIES: &str = "CITES Appendix I, list of orchid species from memory: look it up before anything is sent abroad";

const fn genus(genus: &'static str, short: &'static str) -> FirstAppendix {
    FirstAppendix {
        genus,
        short,
        species: None,
        once: None,
        source: GENUS,
    }
}

const fn species(
    genus: &'static str,
    short: &'static str,
    species: &'static str,
    once: Option<(&'static str, &'static str)>,
) -> FirstAppendix {
    FirstAppendix {
        genus,
        short,
        species: Some(species),
        once,
        source: SPECIES,
    }
}

/// The rows.
pub const FIRST: [FirstAppendix; 9] = [
    genus("Paphiopedilum", "Paph."),
    genus("Phragmipedium", "Phrag."),
    species("Aerangis", "Aergs.", "ellisii", None),
    species("Cattleya", "C.", "jongheana", Some(("Laelia", "jongheana"))),
    species("Cattleya", "C.", "lobata", Some(("Laelia", "lobata"))),
    species("Dendrobium", "Den.", "cruentum", None),
    species("Mexipedium", "Mxpd.", "xerophyticum", None),
    species("Peristeria", "Per.", "elata", None),
    species("Renanthera", "Ren.", "imschootiana", None),
];
