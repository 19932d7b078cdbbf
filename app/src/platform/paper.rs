//! What printing needs of the browser: how wide words are, a style sheet made at run time, and the page's own address.

use std::cell::RefCell;
use std::collections::BTreeMap;

use js_sys::{Array, Function, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::HtmlCanvasElement;

use super::{call, member};

/// A word in its face.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Faced {
    pub text: String,
    pub italic: bool,
    pub bold: bool,
}

/// The size words are measured at: thousandths of it are exact enough.
const MEASURED_PX: f64 = 100.0;

/// Taken for a letter where nothing can be measured: wider than most, so that nothing hangs over.
const LETTER: u32 = 700;

thread_local! {
    static WIDTHS: RefCell<BTreeMap<Faced, u32>> = const { RefCell::new(BTreeMap::new()) };
    static PEN: RefCell<Option<JsValue>> = const { RefCell::new(None) };
}

/// Width of a word at a size of 1, in thousandths, in the page's own letters.
pub fn width(word: &Faced) -> u32 {
    if let Some(known) = WIDTHS.with_borrow(|widths| widths.get(word).copied()) {
        return known;
    }
    let width = measured(word).unwrap_or_else(|| {
        let letters = u32::try_from(word.text.chars().count()).unwrap_or(u32::MAX);
        letters.saturating_mul(LETTER)
    });
    WIDTHS.with_borrow_mut(|widths| widths.insert(word.clone(), width));
    width
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn measured(word: &Faced) -> Option<u32> {
    let pen = pen()?;
    let slant = if word.italic { "italic " } else { "" };
    let weight = if word.bold { 700 } else { 500 };
    let font = format!("{slant}{weight} {MEASURED_PX}px {}", family()?);
    Reflect::set(&pen, &"font".into(), &font.into()).ok()?;
    let size = call(&pen, "measureText", &[JsValue::from_str(&word.text)])?;
    let width = member(&size, "width")?.as_f64()?;
    // Printers place letters a little otherwise than screens do.
    let thousandths = (width / MEASURED_PX * 1_020.0).ceil();
    (0.0..4e9)
        .contains(&thousandths)
        .then_some(thousandths as u32)
}

fn pen() -> Option<JsValue> {
    if let Some(pen) = PEN.with_borrow(Clone::clone) {
        return Some(pen);
    }
    let document = web_sys::window()?.document()?;
    let canvas: HtmlCanvasElement = document.create_element("canvas").ok()?.dyn_into().ok()?;
    let pen: JsValue = canvas.get_context("2d").ok()??.into();
    PEN.with_borrow_mut(|kept| *kept = Some(pen.clone()));
    Some(pen)
}

/// The letters the page is written in.
fn family() -> Option<String> {
    let window: JsValue = web_sys::window()?.into();
    let body = web_sys::window()?.document()?.body()?;
    let style = call(&window, "getComputedStyle", &[body.into()])?;
    member(&style, "fontFamily")?.as_string()
}

/// A style sheet that holds as long as this is kept.
#[derive(Debug)]
pub struct Dress(JsValue);

impl Dress {
    /// Puts a style sheet on; `None` where the browser knows no such thing.
    pub fn put_on(css: &str) -> Option<Self> {
        let kind: Function = member(&js_sys::global(), "CSSStyleSheet")?
            .dyn_into()
            .ok()?;
        let sheet = Reflect::construct(&kind, &Array::new()).ok()?;
        call(&sheet, "replaceSync", &[css.into()])?;
        let worn = worn()?;
        worn.push(&sheet);
        wear(&worn)?;
        Some(Self(sheet))
    }
}

impl Drop for Dress {
    fn drop(&mut self) {
        if let Some(worn) = worn() {
            let left: Array = worn.iter().filter(|sheet| *sheet != self.0).collect();
            let _ = wear(&left);
        }
    }
}

fn document() -> Option<JsValue> {
    Some(web_sys::window()?.document()?.into())
}

fn worn() -> Option<Array> {
    let worn = member(&document()?, "adoptedStyleSheets")?;
    Some(Array::from(&worn))
}

fn wear(sheets: &Array) -> Option<()> {
    Reflect::set(&document()?, &"adoptedStyleSheets".into(), sheets).ok()?;
    Some(())
}

/// The address the program is opened at, without what stands after it.
pub fn address() -> String {
    let location = web_sys::window().map(|window| window.location());
    let part = |get: fn(&web_sys::Location) -> Result<String, JsValue>| {
        location
            .as_ref()
            .and_then(|location| get(location).ok())
            .unwrap_or_default()
    };
    let path = part(web_sys::Location::pathname);
    let path = path.strip_suffix("index.html").unwrap_or(&path);
    format!("{}{path}", part(web_sys::Location::origin))
}
