//! Rust with its comments and the insides of its texts blanked, so that a rule about code is not
//! set off by a sentence. Every byte keeps its place.

/// The code alone; quotes stay, what they enclose becomes spaces, line ends stay.
pub(crate) fn bare(text: &str) -> String {
    let bytes = text.as_bytes();
    let mut out = Vec::with_capacity(bytes.len());
    let mut rest = bytes;
    while let Some(&byte) = rest.first() {
        let before = out.last().copied();
        let taken = skipped(rest, before);
        let (piece, after) = rest.split_at(taken.max(1).min(rest.len()));
        if taken == 0 {
            out.push(byte);
        } else {
            blank(piece, &mut out);
        }
        rest = after;
    }
    String::from_utf8(out).unwrap_or_default()
}

/// The part of a source file before its tests.
pub(crate) fn without_tests(code: &str) -> &str {
    let end = code.match_indices("#[cfg(test)]\n").find(|(at, mark)| {
        let after = code.get(at + mark.len()..).unwrap_or_default();
        after.starts_with("mod ") || after.starts_with("#[path")
    });
    end.and_then(|(at, _)| code.get(..at)).unwrap_or(code)
}

/// The words of a code: names and numbers.
pub(crate) fn words(code: &str) -> impl Iterator<Item = &str> {
    code.split(|letter: char| !letter.is_alphanumeric() && letter != '_')
        .filter(|word| !word.is_empty())
}

fn blank(piece: &[u8], out: &mut Vec<u8>) {
    let last = piece.len() - 1;
    for (at, &byte) in piece.iter().enumerate() {
        let quote = byte == b'"'
            && (at == last
                || piece
                    .iter()
                    .take(at)
                    .all(|other| !matches!(other, b'"' | b'/')));
        out.push(if quote || byte == b'\n' { byte } else { b' ' });
    }
}

/// Length of the comment, text or character that begins here; 0 where code goes on.
fn skipped(rest: &[u8], before: Option<u8>) -> usize {
    let in_word = before.is_some_and(|byte| byte.is_ascii_alphanumeric() || byte == b'_');
    if rest.starts_with(b"//") {
        rest.iter()
            .position(|&byte| byte == b'\n')
            .unwrap_or(rest.len())
    } else if rest.starts_with(b"/*") {
        block_comment(rest)
    } else if rest.starts_with(b"\"") {
        quoted(rest)
    } else if !in_word && (rest.starts_with(b"r") || rest.starts_with(b"br")) {
        raw(rest)
    } else if rest.starts_with(b"'") {
        character(rest)
    } else {
        0
    }
}

fn block_comment(rest: &[u8]) -> usize {
    let mut depth = 0_usize;
    let mut at = 0;
    while let Some(here) = rest.get(at..).filter(|here| !here.is_empty()) {
        if here.starts_with(b"/*") {
            depth += 1;
            at += 2;
        } else if here.starts_with(b"*/") {
            depth -= 1;
            at += 2;
            if depth == 0 {
                return at;
            }
        } else {
            at += 1;
        }
    }
    rest.len()
}

fn quoted(rest: &[u8]) -> usize {
    let mut escaped = false;
    for (at, &byte) in rest.iter().enumerate().skip(1) {
        match byte {
            _ if escaped => escaped = false,
            b'\\' => escaped = true,
            b'"' => return at + 1,
            _ => {}
        }
    }
    rest.len()
}

fn raw(rest: &[u8]) -> usize {
    let start = rest
        .iter()
        .position(|&byte| byte == b'r')
        .map_or(0, |at| at + 1);
    let hashes = rest
        .iter()
        .skip(start)
        .take_while(|&&byte| byte == b'#')
        .count();
    if rest.get(start + hashes) != Some(&b'"') {
        return 0;
    }
    let inside = start + hashes + 1;
    let mut end = vec![b'"'];
    end.resize(hashes + 1, b'#');
    let body = rest.get(inside..).unwrap_or_default();
    body.windows(end.len())
        .position(|window| window == end)
        .map_or(rest.len(), |at| inside + at + end.len())
}

/// A character; a lifetime is code.
fn character(rest: &[u8]) -> usize {
    if rest.get(1) == Some(&b'\\') {
        return rest
            .iter()
            .skip(3)
            .position(|&byte| byte == b'\'')
            .map_or(0, |at| at + 4);
    }
    let inside = rest.get(1..).and_then(|after| {
        std::str::from_utf8(after.get(..4.min(after.len()))?)
            .ok()
            .or_else(|| {
                (1..4)
                    .rev()
                    .find_map(|length| std::str::from_utf8(after.get(..length)?).ok())
            })
    });
    let length = inside
        .and_then(|text| text.chars().next())
        .map_or(0, char::len_utf8);
    if length > 0 && rest.get(1 + length) == Some(&b'\'') {
        length + 2
    } else {
        0
    }
}

#[test]
fn sentences_go_and_code_stays() {
    let text = "let a = \"f64 // no\"; // f64\nlet b: f64 = 'x'; /* a /* b */ c */ fn f<'a>(r: &'a str) {}";
    let code = bare(text);
    assert_eq!(code.len(), text.len());
    assert_eq!(
        words(&code).filter(|word| *word == "f64").count(),
        1,
        "{code}"
    );
    assert!(
        code.contains("fn f<'a>(r: &'a str) {}") && !code.contains('x') && !code.contains(" c "),
        "{code}"
    );
}

#[test]
fn raw_texts_and_escapes_end_where_they_end() {
    for text in [
        "r#\"a \" b\"#; end",
        "\"\\\"\"; end",
        "br\"\\\"; end",
        "'\\''; end",
        "'\"'; end",
        "'é'; end",
        "for_r\"x\"; end",
    ] {
        let code = bare(text);
        assert!(
            code.ends_with("; end") && code.len() == text.len(),
            "{text} became {code}"
        );
        assert!(
            !code.contains('b') && !code.contains('é'),
            "{text} became {code}"
        );
    }
}

#[test]
fn tests_are_cut_off() {
    assert_eq!(without_tests("a\n#[cfg(test)]\nmod tests { b }"), "a\n");
    assert_eq!(
        without_tests("#[cfg(test)]\nuse a;\nlet b"),
        "#[cfg(test)]\nuse a;\nlet b"
    );
}
