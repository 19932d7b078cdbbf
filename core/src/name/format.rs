//! The printed form of a name: which words lean and which stand.

use super::{FORMULA_DEPTH_MAX, Infraspecific, PlantName, Qualifier, Rank};

/// A stretch of a printed name in one face. Spaces between stretches are part of them.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Run {
    pub text: String,
    pub italic: bool,
}

/// Words put one after another; a space between two italic words is italic, any other is roman.
#[derive(Default)]
struct Line {
    runs: Vec<Run>,
    /// A bracket was opened: the next word follows without a space.
    tight: bool,
}

impl Line {
    fn roman(&mut self, text: &str) {
        self.word(text, false);
    }

    fn italic(&mut self, text: &str) {
        self.word(text, true);
    }

    fn open(&mut self) {
        self.roman("(");
        self.tight = true;
    }

    fn close(&mut self) {
        self.add(")", false);
    }

    fn word(&mut self, text: &str, italic: bool) {
        let spaced = !core::mem::take(&mut self.tight);
        if let (true, Some(last)) = (spaced, self.runs.last()) {
            let lean = last.italic && italic;
            self.add(" ", lean);
        }
        self.add(text, italic);
    }

    fn add(&mut self, text: &str, italic: bool) {
        match self.runs.last_mut() {
            Some(last) if last.italic == italic => last.text.push_str(text),
            _ => self.runs.push(run(text, italic)),
        }
    }
}

fn run(text: &str, italic: bool) -> Run {
    Run {
        text: text.to_owned(),
        italic,
    }
}

impl Rank {
    /// The rank as printed, with its stop.
    pub fn printed(self) -> &'static str {
        match self {
            Rank::Subspecies => "subsp.",
            Rank::Variety => "var.",
            Rank::Subvariety => "subvar.",
            Rank::Form => "f.",
            Rank::Subform => "subf.",
        }
    }
}

impl Qualifier {
    /// The qualifier as printed, with its stop.
    pub fn printed(self) -> &'static str {
        match self {
            Qualifier::Cf => "cf.",
            Qualifier::Aff => "aff.",
            Qualifier::Sp => "sp.",
        }
    }
}

impl PlantName {
    /// The name as printed: genus and epithets of species and below in italic, everything else roman.
    ///
    /// Empty for a plant without a name; the note is not part of the name.
    pub fn runs(&self) -> Vec<Run> {
        let mut line = Line::default();
        self.print(&mut line, FORMULA_DEPTH_MAX);
        line.runs
    }

    /// The name without faces, for labels, files and search.
    pub fn plain(&self) -> String {
        self.runs().into_iter().map(|run| run.text).collect()
    }

    fn print(&self, line: &mut Line, depth: usize) {
        if let Some(genus) = &self.genus {
            if self.genus_hybrid {
                line.roman("×");
            }
            line.italic(genus);
        }
        if let Some(qualifier) = self.qualifier {
            line.roman(qualifier.printed());
        }
        if let Some(species) = &self.species {
            if self.species_hybrid {
                line.roman("×");
            }
            line.italic(species);
        }
        for Infraspecific {
            rank,
            epithet,
            hybrid,
        } in &self.infraspecific
        {
            let notho = if *hybrid { "notho" } else { "" };
            line.roman(&format!("{notho}{}", rank.printed()));
            line.italic(epithet);
        }
        self.print_formula(line, depth);
        if let Some(grex) = &self.grex {
            line.roman(grex);
            if self.grex_sign {
                line.roman("gx");
            }
        }
        if let Some(group) = &self.group {
            line.roman(&format!("{group} Group"));
        }
        if let Some(cultivar) = &self.cultivar {
            line.roman(&format!("'{cultivar}'"));
        }
    }

    fn print_formula(&self, line: &mut Line, depth: usize) {
        let (Some(formula), Some(deeper)) = (&self.formula, depth.checked_sub(1)) else {
            return;
        };
        let enclosed = self.genus.is_some() || self.cultivar.is_some();
        if enclosed {
            line.open();
        }
        formula.pod.print_parent(line, deeper);
        line.roman("×");
        formula.pollen.print_parent(line, deeper);
        if enclosed {
            line.close();
        }
    }

    /// A parent that is itself a cross stands in brackets.
    fn print_parent(&self, line: &mut Line, depth: usize) {
        let bare_cross = self.formula.is_some() && self.genus.is_none() && self.cultivar.is_none();
        if bare_cross {
            line.open();
        }
        self.print(line, depth);
        if bare_cross {
            line.close();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::name::Formula;

    /// The printed form with italics between underscores.
    fn faced(name: &PlantName) -> String {
        let face = |run: Run| match run.italic {
            true => format!("_{}_", run.text),
            false => run.text,
        };
        name.runs().into_iter().map(face).collect()
    }

    fn typed(text: &str) -> String {
        faced(&PlantName::from_typed(text))
    }

    #[test]
    fn genus_and_epithets_lean_ranks_signs_and_cultivated_names_stand() {
        for (text, printed) in [
            ("Cymbidium sinense", "_Cymbidium sinense_"),
            ("Pleione Fujiyama 'Teal'", "_Pleione_ Fujiyama 'Teal'"),
            ("Dendrobium × delicatum", "_Dendrobium_ × _delicatum_"),
            (
                "× Brassocattleya Morning Mist",
                "× _Brassocattleya_ Morning Mist",
            ),
            (
                "Cymbidium ensifolium subsp. haematodes 'Night Tide'",
                "_Cymbidium ensifolium_ subsp. _haematodes_ 'Night Tide'",
            ),
            (
                "Polypodium vulgare nothosubsp. mantoniae",
                "_Polypodium vulgare_ nothosubsp. _mantoniae_",
            ),
            ("Phalaenopsis sp.", "_Phalaenopsis_ sp."),
            ("Cymbidium cf. sinense", "_Cymbidium_ cf. _sinense_"),
            (
                "Pleione Dawn gx 'Ivory Step'",
                "_Pleione_ Dawn gx 'Ivory Step'",
            ),
            ("Pleione Early Dawn Group", "_Pleione_ Early Dawn Group"),
            (
                "Cattleya labiata × Cattleya warneri",
                "_Cattleya labiata_ × _Cattleya warneri_",
            ),
            ("", ""),
        ] {
            assert_eq!(typed(text), printed);
        }
    }

    #[test]
    fn a_cross_with_a_cross_stands_in_brackets() {
        let parent = |text| Box::new(PlantName::from_typed(text));
        let inner = PlantName {
            formula: Some(Formula {
                pod: parent("Cattleya labiata"),
                pollen: parent("Cattleya warneri"),
            }),
            ..PlantName::default()
        };
        let outer = PlantName {
            formula: Some(Formula {
                pod: Box::new(inner),
                pollen: parent("Laelia anceps 'Snow'"),
            }),
            ..PlantName::default()
        };
        assert_eq!(
            faced(&outer),
            "(_Cattleya labiata_ × _Cattleya warneri_) × _Laelia anceps_ 'Snow'"
        );
    }
}
