//! Texts as growers type them: what is let in, and how they are found again.
//!
//! Lengths count characters, not bytes. Control characters are refused, emoji and right-to-left writing are welcome; to
//! keep a name from turning the line around it is the screen's task.
//!
//! Search folds both sides: lower case, Latin letters without their marks, quotes and the hybrid sign dropped. Every word
//! of the question must be found, at the beginning of a word, inside one, or with one slip in words of five letters and
//! more. No table of the whole of Unicode is carried for it.

/// Why a text was not taken.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum TextFault {
    /// More characters than the field holds.
    TooLong { max: usize, found: usize },
    /// A control character; `at` counts characters from 0.
    ControlCharacter { at: usize },
}

/// Whether a text may hold more than one line.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Lines {
    One,
    Many,
}

/// Checks a text against a field's limit in characters.
pub fn check_text(text: &str, max: usize, lines: Lines) -> Result<(), TextFault> {
    let found = text.chars().count();
    if found > max {
        return Err(TextFault::TooLong { max, found });
    }
    let refused = |c: char| c.is_control() && !(c == '\n' && lines == Lines::Many);
    match text.chars().position(refused) {
        Some(at) => Err(TextFault::ControlCharacter { at }),
        None => Ok(()),
    }
}

/// The first `max` characters, without leaving half of a joined emoji or a letter without its mark.
pub fn clip(text: &str, max: usize) -> &str {
    let starts: Vec<(usize, char)> = text.char_indices().collect();
    let mut keep = max;
    if keep >= starts.len() {
        return text;
    }
    let clings = |at: usize| starts.get(at).is_some_and(|(_, c)| is_clinging(*c));
    let joins = |at: usize| starts.get(at).is_some_and(|(_, c)| *c == JOINER);
    while keep > 0 && (clings(keep) || joins(keep - 1)) {
        keep -= 1;
    }
    let end = starts.get(keep).map_or(0, |(at, _)| *at);
    text.get(..end).unwrap_or("")
}

const JOINER: char = '\u{200D}';

/// Characters that belong to the one before them.
fn is_clinging(c: char) -> bool {
    is_mark(c) || matches!(c, JOINER | '\u{FE00}'..='\u{FE0F}' | '\u{1F3FB}'..='\u{1F3FF}')
}

/// Combining marks of Latin, Greek and Cyrillic writing.
fn is_mark(c: char) -> bool {
    matches!(c, '\u{0300}'..='\u{036F}')
}

/// A text made ready for searching: folded words with one space between.
pub fn fold(text: &str) -> String {
    let mut folded = String::with_capacity(text.len());
    for c in text.chars() {
        if c.is_ascii() {
            fold_letter(c.to_ascii_lowercase(), &mut folded);
        } else {
            c.to_lowercase().for_each(|c| fold_letter(c, &mut folded));
        }
    }
    let end = folded.trim_end().len();
    folded.truncate(end);
    folded
}

fn fold_letter(c: char, folded: &mut String) {
    if c.is_ascii_alphanumeric() {
        return folded.push(c);
    }
    if is_mark(c) || is_quote(c) {
        return;
    }
    match plain(c) {
        Some(letters) => folded.push_str(letters),
        None if c.is_alphanumeric() => folded.push(c),
        None if folded.is_empty() || folded.ends_with(' ') => {}
        None => folded.push(' '),
    }
}

fn is_quote(c: char) -> bool {
    matches!(
        c,
        '\'' | '"' | '`' | '´' | '\u{2018}'..='\u{201F}' | '«' | '»' | '‹' | '›'
    )
}

/// The letters a marked Latin letter (lower case) is found by.
fn plain(c: char) -> Option<&'static str> {
    Some(match c {
        'à' | 'á' | 'â' | 'ã' | 'ä' | 'å' | 'ā' | 'ă' | 'ą' | 'ǎ' | 'ả' | 'ạ' => "a",
        'ç' | 'ć' | 'ĉ' | 'ċ' | 'č' => "c",
        'ď' | 'đ' | 'ð' => "d",
        'è' | 'é' | 'ê' | 'ë' | 'ē' | 'ĕ' | 'ė' | 'ę' | 'ě' | 'ẽ' | 'ẹ' => "e",
        'ĝ' | 'ğ' | 'ġ' | 'ģ' => "g",
        'ĥ' | 'ħ' => "h",
        'ì' | 'í' | 'î' | 'ï' | 'ĩ' | 'ī' | 'ĭ' | 'į' | 'ı' | 'ị' => "i",
        'ĵ' => "j",
        'ķ' => "k",
        'ĺ' | 'ļ' | 'ľ' | 'ŀ' | 'ł' => "l",
        'ñ' | 'ń' | 'ņ' | 'ň' => "n",
        'ò' | 'ó' | 'ô' | 'õ' | 'ö' | 'ø' | 'ō' | 'ŏ' | 'ő' | 'ơ' | 'ọ' => "o",
        'ŕ' | 'ŗ' | 'ř' => "r",
        'ś' | 'ŝ' | 'ş' | 'š' | 'ș' => "s",
        'ţ' | 'ť' | 'ŧ' | 'ț' => "t",
        'ù' | 'ú' | 'û' | 'ü' | 'ũ' | 'ū' | 'ŭ' | 'ů' | 'ű' | 'ų' | 'ư' | 'ụ' => "u",
        'ŵ' => "w",
        'ý' | 'ÿ' | 'ŷ' | 'ỳ' => "y",
        'ź' | 'ż' | 'ž' => "z",
        'æ' => "ae",
        'œ' => "oe",
        'ß' => "ss",
        'þ' => "th",
        'ĳ' => "ij",
        _ => return None,
    })
}

/// How near a text comes to what was asked for, nearest first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Closeness {
    /// Every word asked for begins a word of the text.
    Beginning,
    /// Some word asked for stands inside a word.
    Inside,
    /// Some word asked for is one slip away.
    OneSlip,
}

/// What a grower typed into a search box.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Question {
    words: Vec<Word>,
}

/// A word asked for, also letter by letter: it is held against every word of every lot.
#[derive(Clone, PartialEq, Eq, Debug)]
struct Word {
    text: String,
    letters: Vec<char>,
}

/// Words shorter than this must be typed right.
const SLIP_FROM: usize = 5;
/// A typed code without its hyphen is looked for across words from this length on.
const ACROSS_FROM: usize = 4;

impl Question {
    /// Folds what was typed. A lone `x` between other words is taken for the hybrid sign and left out.
    pub fn new(typed: &str) -> Question {
        let folded = fold(typed);
        let words = folded.split(' ').filter(|word| !word.is_empty());
        let mut words: Vec<Word> = words
            .map(|word| Word {
                text: word.to_owned(),
                letters: word.chars().collect(),
            })
            .collect();
        if words.len() > 1 {
            words.retain(|word| word.text != "x");
        }
        Question { words }
    }

    /// True when nothing was asked for; it then finds everything.
    pub fn is_empty(&self) -> bool {
        self.words.is_empty()
    }

    /// How near a text, folded before, comes; `None` when it does not match.
    pub fn find_in(&self, folded: &str) -> Option<Closeness> {
        self.nearest([], folded)
    }

    /// How near each word asked for comes to a part of a text, for [`Self::nearest`].
    pub fn words_in(&self, folded: &str) -> PartFound {
        let words = self.words.iter().map(|word| closeness(word, folded));
        PartFound {
            words: words.collect(),
            across: self.across(folded),
        }
    }

    /// How near a text comes of which some parts were looked through before; its last part, folded, was not.
    pub fn nearest<const PARTS: usize>(
        &self,
        parts: [&PartFound; PARTS],
        rest: &str,
    ) -> Option<Closeness> {
        let word = |(at, word): (usize, &Word)| {
            let before = parts.iter().filter_map(|part| *part.words.get(at)?).min();
            match before {
                Some(Closeness::Beginning) => before,
                _ => before.into_iter().chain(closeness(word, rest)).min(),
            }
        };
        let mut words = self.words.iter().enumerate().map(word);
        let worst = words.try_fold(Closeness::Beginning, |worst, one| Some(worst.max(one?)));
        worst.or_else(|| {
            let across = parts.iter().any(|part| part.across) || self.across(rest);
            across.then_some(Closeness::Inside)
        })
    }

    /// Whether what was typed may be a code without its hyphen beside other words: they may run from one part of a text into
    /// the next.
    pub fn may_run_across(&self) -> bool {
        let has_digit = |word: &Word| word.text.bytes().any(|byte| byte.is_ascii_digit());
        self.words.len() > 1 && self.words.iter().any(has_digit)
    }

    /// `k3118` for a code printed `K3-118R`: only what has a digit is one.
    fn across(&self, folded: &str) -> bool {
        let texts = || self.words.iter().map(|word| word.text.as_str());
        if !texts().any(|text| text.bytes().any(|byte| byte.is_ascii_digit())) {
            return false;
        }
        let asked: String = texts().collect();
        let long_enough = asked.chars().count() >= ACROSS_FROM;
        long_enough && folded.replace(' ', "").contains(&asked)
    }
}

/// What was found in a part of a text that many texts share.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct PartFound {
    words: Vec<Option<Closeness>>,
    across: bool,
}

fn closeness(word: &Word, folded: &str) -> Option<Closeness> {
    let mut inside = None;
    for (at, _) in folded.match_indices(&word.text) {
        let before = at.checked_sub(1).and_then(|at| folded.as_bytes().get(at));
        if before.is_none_or(|byte| *byte == b' ') {
            return Some(Closeness::Beginning);
        }
        inside = Some(Closeness::Inside);
    }
    if inside.is_some() || word.letters.len() < SLIP_FROM {
        return inside;
    }
    folded
        .split(' ')
        .any(|have| begins_within_one_slip(&word.letters, have))
        .then_some(Closeness::OneSlip)
}

/// Whether some beginning of `have` is `asked` with one letter wrong, missing, too many, or two exchanged.
fn begins_within_one_slip(asked: &[char], have: &str) -> bool {
    // With one slip, one of the first two letters is still one of the first two: few words get past this.
    let mut first = have.chars();
    let first = [first.next(), first.next()];
    let mut asked_first = asked.iter().take(2);
    if !asked_first.any(|letter| first.contains(&Some(*letter))) {
        return false;
    }
    let have: Vec<char> = have.chars().take(asked.len() + 1).collect();
    let same = asked.iter().zip(&have).take_while(|(a, h)| a == h).count();
    let (asked, have) = (asked.get(same..), have.get(same..));
    let (Some(asked), Some(have)) = (asked, have) else {
        return false;
    };
    let begins = |skip_asked: usize, skip_have: usize| {
        let asked = asked.get(skip_asked..).unwrap_or(&[]);
        have.get(skip_have..).unwrap_or(&[]).starts_with(asked)
    };
    let exchanged = match (asked, have) {
        ([a1, a2, ..], [h1, h2, ..]) => a1 == h2 && a2 == h1,
        _ => false,
    };
    begins(1, 1) || begins(1, 0) || begins(0, 1) || (exchanged && begins(2, 2))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn find(typed: &str, text: &str) -> Option<Closeness> {
        Question::new(typed).find_in(&fold(text))
    }

    #[test]
    fn accents_quotes_case_and_the_hybrid_sign_do_not_matter() {
        assert_eq!(
            fold("× Brassocattleya  Mañana ‘Éclair’"),
            "brassocattleya manana eclair"
        );
        assert_eq!(fold("Cafe\u{0301} Bræ Straße"), "cafe brae strasse");
        assert_eq!(fold("Vintner's Cup"), "vintners cup");
        assert_eq!(fold("  --  "), "");
        assert_eq!(fold("שלום Ωμέγα 🌱"), "שלום ωμέγα");
    }

    #[test]
    fn the_beginning_of_any_word_is_found_first() {
        let name = "Cymbidium sinense 'Pale Cup'";
        assert_eq!(find("cym", name), Some(Closeness::Beginning));
        assert_eq!(find("pal sin", name), Some(Closeness::Beginning));
        assert_eq!(find("bidium", name), Some(Closeness::Inside));
        assert_eq!(find("", name), Some(Closeness::Beginning));
        assert_eq!(find("cym zzz", name), None);
        assert!(Closeness::Beginning < Closeness::Inside && Closeness::Inside < Closeness::OneSlip);
    }

    #[test]
    fn one_slip_in_a_long_word_is_forgiven() {
        let name = "Zygopetalum maculatum";
        for slip in [
            "zygopatalum",
            "zygopetlum",
            "zygoppetalum",
            "zyogpetalum",
            "mactulat",
            "wygop",
        ] {
            assert_eq!(find(slip, name), Some(Closeness::OneSlip), "{slip}");
        }
        for far in ["zigopatalum", "zyqo", "maculotam", "xxxxxxxx"] {
            assert_eq!(find(far, name), None, "{far}");
        }
    }

    #[test]
    fn the_letter_x_is_a_sign_between_words_and_a_letter_alone() {
        assert!(find("dendrobium x delic", "Dendrobium × delicatum").is_some());
        assert_eq!(find("x", "Xylobium"), Some(Closeness::Beginning));
        assert_eq!(find("x", "Cattleya"), None);
    }

    #[test]
    fn a_code_is_found_with_and_without_its_hyphen() {
        for typed in ["K3-118", "k3 118", "k3118"] {
            assert!(find(typed, "K3-118R Cymbidium").is_some(), "{typed}");
        }
        assert_eq!(find("k3119", "K3-118R Cymbidium"), None);
    }

    #[test]
    fn texts_are_counted_in_characters_and_control_characters_refused() {
        assert_eq!(check_text("ñandú", 5, Lines::One), Ok(()));
        assert_eq!(
            check_text("ñandús", 5, Lines::One),
            Err(TextFault::TooLong { max: 5, found: 6 })
        );
        assert_eq!(check_text("🌱 שלום 👩‍🌾", 20, Lines::One), Ok(()));
        let fault = Err(TextFault::ControlCharacter { at: 2 });
        assert_eq!(check_text("ab\ncd", 20, Lines::One), fault);
        assert_eq!(check_text("ab\ncd", 20, Lines::Many), Ok(()));
        assert_eq!(check_text("ab\0cd", 20, Lines::Many), fault);
    }

    #[test]
    fn clipping_never_leaves_half_a_sign() {
        assert_eq!(clip("Cymbidium", 3), "Cym");
        assert_eq!(clip("Cym", 3), "Cym");
        assert_eq!(clip("Cym", 0), "");
        assert_eq!(clip("cafe\u{0301}s", 4), "caf");
        assert_eq!(clip("cafe\u{0301}s", 5), "cafe\u{0301}");
        // A gardener is a woman, a joiner and a sheaf: all of it or none.
        assert_eq!(clip("a👩\u{200D}🌾b", 2), "a");
        assert_eq!(clip("a👩\u{200D}🌾b", 3), "a");
        assert_eq!(clip("a👩\u{200D}🌾b", 4), "a👩\u{200D}🌾");
    }

    proptest::proptest! {
        #[test]
        fn folding_twice_changes_nothing(text in "\\PC{0,40}") {
            proptest::prop_assert_eq!(fold(&fold(&text)), fold(&text));
        }

        #[test]
        fn a_clipped_text_is_a_beginning_and_fits(text in "\\PC{0,40}", max in 0usize..40) {
            let clipped = clip(&text, max);
            proptest::prop_assert!(text.starts_with(clipped));
            proptest::prop_assert!(clipped.chars().count() <= max);
        }

        #[test]
        fn a_long_word_with_one_letter_changed_is_still_found(word in "[a-z]{5,12}", at in 0usize..5, c in "[a-z]") {
            let mut slip = word.clone();
            slip.replace_range(at..=at, &c);
            proptest::prop_assert!(find(&slip, &word).is_some());
        }
    }
}
