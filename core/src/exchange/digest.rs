//! What a file's digests are taken over.
//!
//! A line's own SHA-256 is wanted anyway, for its hash. Since format 3 a block's digest is taken over those of its lines
//! and the trailer's over those of the blocks, so every byte is gone through once and not three times; before, both were
//! taken over the lines themselves.

use sha2::{Digest, Sha256};

use super::FORMAT;
use crate::entry::LineDigest;

/// The first format whose digests are taken over digests.
const OVER_DIGESTS: u16 = 3;

#[derive(Clone, Debug)]
pub(super) struct Digests {
    over_digests: bool,
    block: Sha256,
    all: Sha256,
}

impl Default for Digests {
    fn default() -> Self {
        Self::of_format(FORMAT)
    }
}

impl Digests {
    pub(super) fn of_format(format: u16) -> Self {
        Self {
            over_digests: format >= OVER_DIGESTS,
            block: Sha256::new(),
            all: Sha256::new(),
        }
    }

    pub(super) fn line(&mut self, line: &str, digest: &LineDigest) {
        if self.over_digests {
            self.block.update(digest.bytes());
            return;
        }
        for hash in [&mut self.block, &mut self.all] {
            hash.update(line.as_bytes());
            hash.update(b"\n");
        }
    }

    /// The digest of the lines since the block before.
    pub(super) fn end_block(&mut self) -> String {
        let digest = std::mem::take(&mut self.block).finalize();
        if self.over_digests {
            self.all.update(digest);
        }
        hex(&digest)
    }

    /// The digest of all of them.
    pub(super) fn end(&mut self) -> String {
        hex(&std::mem::take(&mut self.all).finalize())
    }
}

fn hex(digest: &[u8]) -> String {
    digest.iter().map(|byte| format!("{byte:02x}")).collect()
}
