//! The kinds of work there are: one row each.

use serde::{Deserialize, Serialize};

/// What a task asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum TaskKind {
    KeepShaded,
    FirstWater,
    RotCheck,
    NormalLight,
    FirstFeed,
    RootCheck,
    Restake,
    Repot,
    PotOn,
    ShootCheck,
    PotShoots,
    WriteOff,
    MossCheck,
    ResultLook,
    RepeatTreatment,
    ToTheBench,
    LookAgain,
    LookOver,
    QuarantineLook,
    VirusTest,
    ReleaseReview,
    Own,
}

/// What the program knows of a kind.
#[derive(Clone, Copy, Debug)]
pub struct KindDef {
    pub kind: TaskKind,
    /// Until its window opens the opposite holds: "no water before Saturday" is shown as prominently as a task.
    pub holds: bool,
    /// The work is done in the Repot room.
    pub at_bench: bool,
    /// Done asks how it looked.
    pub asks_outcome: bool,
    /// It is recorded on the lot's page: a test, a release.
    pub on_page: bool,
    /// It is done by treating: without a treatment that is said.
    pub treats: bool,
}

const fn plain(kind: TaskKind) -> KindDef {
    KindDef {
        kind,
        holds: false,
        at_bench: false,
        asks_outcome: false,
        on_page: false,
        treats: false,
    }
}

/// One row per kind, in the order of the enum.
pub const KINDS: &[KindDef] = &[
    plain(TaskKind::KeepShaded),
    KindDef {
        holds: true,
        ..plain(TaskKind::FirstWater)
    },
    plain(TaskKind::RotCheck),
    plain(TaskKind::NormalLight),
    plain(TaskKind::FirstFeed),
    plain(TaskKind::RootCheck),
    plain(TaskKind::Restake),
    KindDef {
        at_bench: true,
        ..plain(TaskKind::Repot)
    },
    KindDef {
        at_bench: true,
        ..plain(TaskKind::PotOn)
    },
    plain(TaskKind::ShootCheck),
    KindDef {
        at_bench: true,
        ..plain(TaskKind::PotShoots)
    },
    plain(TaskKind::WriteOff),
    plain(TaskKind::MossCheck),
    KindDef {
        asks_outcome: true,
        ..plain(TaskKind::ResultLook)
    },
    KindDef {
        treats: true,
        ..plain(TaskKind::RepeatTreatment)
    },
    KindDef {
        at_bench: true,
        ..plain(TaskKind::ToTheBench)
    },
    plain(TaskKind::LookAgain),
    plain(TaskKind::LookOver),
    KindDef {
        asks_outcome: true,
        ..plain(TaskKind::QuarantineLook)
    },
    KindDef {
        on_page: true,
        ..plain(TaskKind::VirusTest)
    },
    KindDef {
        holds: true,
        on_page: true,
        ..plain(TaskKind::ReleaseReview)
    },
    plain(TaskKind::Own),
];

impl TaskKind {
    /// The kind's row.
    #[must_use]
    pub fn def(self) -> KindDef {
        KINDS
            .iter()
            .copied()
            .find(|row| row.kind == self)
            .unwrap_or(plain(self))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_has_exactly_one_row() {
        for (at, row) in KINDS.iter().enumerate() {
            assert_eq!(row.kind as usize, at, "rows stand in the order of the enum");
        }
        assert_eq!(TaskKind::Own as usize + 1, KINDS.len());
    }

    #[test]
    fn wire_names_are_fixed() {
        let names: Vec<String> = KINDS
            .iter()
            .map(|row| serde_json::to_string(&row.kind).unwrap().replace('"', ""))
            .collect();
        let fixed = "keep_shaded first_water rot_check normal_light first_feed root_check restake repot pot_on shoot_check \
                     pot_shoots write_off moss_check result_look repeat_treatment to_the_bench look_again look_over \
                     quarantine_look virus_test release_review own";
        assert_eq!(names.join(" "), fixed);
    }
}
