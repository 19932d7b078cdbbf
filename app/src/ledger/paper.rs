//! Paper and what is read off it: codes drawn and read, words measured, the size of the page.

use leptos::prelude::*;
use leptos::task::spawn_local;

use super::Ledger;
use crate::platform::{camera, paper, paperwork};

pub use crate::platform::camera::{Camera, CameraFault, Seen};
pub use crate::platform::paper::{Dress, Faced};
pub use crate::platform::paperwork::Drawn;

/// Milliseconds between two looks through the camera.
const LOOK_MS: i32 = 120;

impl Ledger {
    /// What stands in the code of a label: the address of this program and the way within it.
    #[must_use]
    pub fn link(self, fragment: &str) -> String {
        format!("{}{fragment}", paper::address())
    }

    /// Draws texts as codes for labels; `None` where the module for it cannot be had.
    pub async fn draw_codes(self, texts: &[String]) -> Option<Vec<Drawn>> {
        paperwork::draw(texts, false).await
    }

    /// Width of a word in thousandths of its size.
    #[must_use]
    pub fn width_of(self, word: &Faced) -> u32 {
        paper::width(word)
    }

    /// Lets the page draw what it has before the next piece of long work.
    pub async fn breathe(self) {
        camera::rest(0).await;
    }

    /// Whether the camera was allowed before.
    pub async fn camera_allowed(self) -> bool {
        camera::allowed().await
    }

    /// Looks through the camera until `found` says that it is enough, or `going` is over.
    pub fn watch(
        self,
        camera: std::rc::Rc<Camera>,
        going: StoredValue<bool>,
        found: impl Fn(Seen) -> bool + 'static,
    ) {
        spawn_local(async move {
            while going.try_get_value() == Some(true) {
                let seen = camera.look().await;
                if going.try_get_value() != Some(true) || found(seen) {
                    break;
                }
                camera::rest(LOOK_MS).await;
            }
        });
    }
}
