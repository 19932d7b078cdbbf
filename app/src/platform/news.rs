//! What is new in a version of the program, in a line that its page carries in the head: of this one, and of one that
//! is kept already and waits.

use js_sys::Array;
use wasm_bindgen::{JsCast, JsValue};

use super::{member, promised};

/// The line of this version in a language, by its two letters; empty where the page has none.
pub fn here(language: &str) -> String {
    let document = web_sys::window().and_then(|window| window.document());
    let wanted = format!("meta[name=news-{language}]");
    let meta = document.and_then(|document| document.query_selector(&wanted).ok());
    let line = meta
        .flatten()
        .and_then(|meta| meta.get_attribute("content"));
    line.unwrap_or_default()
}

/// The line of the version that waits, read off its page as the worker keeps it; `None` where none can be found.
pub async fn of_next(language: &str) -> Option<String> {
    let now = here(language);
    let href = web_sys::window()?.location().href().ok()?;
    let (folder, _) = href.split(['#', '?']).next()?.rsplit_once('/')?;
    let home = JsValue::from_str(&format!("{folder}/"));
    let ours = format!("velamen {folder}/ ");
    let caches = member(&js_sys::global(), "caches")?;
    let names: Array = promised(&caches, "keys", &[]).await?.dyn_into().ok()?;
    for name in names {
        if !name.as_string().is_some_and(|name| name.starts_with(&ours)) {
            continue;
        }
        let kept = promised(&caches, "open", &[name]).await?;
        let Some(page) = promised(&kept, "match", std::slice::from_ref(&home)).await else {
            continue;
        };
        let text = promised(&page, "text", &[]).await?.as_string()?;
        if let Some(line) = line_of(&text, language).filter(|line| *line != now && !line.is_empty())
        {
            return Some(line.to_owned());
        }
    }
    None
}

fn line_of<'a>(page: &'a str, language: &str) -> Option<&'a str> {
    let before = format!("<meta name=\"news-{language}\" content=\"");
    let (_, rest) = page.split_once(&before)?;
    rest.split_once('"').map(|(line, _)| line)
}

#[cfg(test)]
mod tests {
    use super::line_of;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn the_line_is_read_off_a_page() {
        let page = "<head><meta name=\"news-en\" content=\"A lock.\"><title>T</title>";
        assert_eq!(line_of(page, "en"), Some("A lock."));
        assert_eq!(line_of(page, "es"), None);
    }
}
