//! Open work and the end of a soak, for the phone's own calendar: it rings where no page can.

use velamen_core::calendar::{self, Appointment, OpenWork, When, uid};
use velamen_core::id::Dev;
use velamen_core::task::TaskKind;

use super::Ledger;
use crate::words::{self, day, format, task, trade};

/// Minutes after midnight at which a day's work rings.
const ALARM_MIN: u16 = 7 * 60;
const TYPE: &str = "text/calendar";

impl Ledger {
    /// Downloads the open work of the coming quarter as a calendar file.
    pub fn download_calendar(self) {
        let at = self.moment();
        let rows = self.look(|state, at| calendar::open_work(state, at.today));
        let rows: Vec<Appointment> = rows.into_iter().map(appointment).collect();
        self.offer(&day::calendar_name(at.today), &rows);
    }

    /// Downloads one appointment: the soak of that bath is over.
    pub fn download_soak_end(self, bath: u32, name: &str, out_ms: i64) {
        let book = self
            .look(|state, _| state.facts().book.book)
            .unwrap_or(Dev(0));
        let soak = Appointment {
            uid: uid(book, &["soak", &bath.to_string(), &out_ms.to_string()]),
            when: When::Instant { at_ms: out_ms },
            summary: words::bath::out_of(name),
            description: String::new(),
            location: String::new(),
        };
        self.offer(day::SOAK_FILE, &[soak]);
    }

    fn offer(self, name: &str, rows: &[Appointment]) {
        let text = calendar::write(rows, self.moment().now_ms);
        self.save_text(name, TYPE, &text, day::calendar_written(rows.len()));
    }
}

fn appointment(work: OpenWork) -> Appointment {
    let what = if work.kind == TaskKind::Own {
        work.text
    } else {
        task::kind(work.kind).to_owned()
    };
    let plants = work.lots.iter().map(|lot| {
        let runs = trade::name_runs(&lot.name);
        let name: String = runs.into_iter().map(|(text, _)| text).collect();
        let code = lot.code.map(|code| code.to_string()).unwrap_or_default();
        let count = trade::plants_in_pots(lot.plants, lot.stands);
        format!("{code} {name}, {count}")
    });
    let lots = i64::try_from(work.lots.len()).unwrap_or(i64::MAX);
    let summary = if lots > 1 {
        format!("{what} ({})", format::counted(lots, "lot", "lots"))
    } else {
        what
    };
    Appointment {
        uid: work.uid,
        when: When::Day {
            on: work.on,
            alarm_min: Some(ALARM_MIN),
        },
        summary,
        description: plants.collect::<Vec<_>>().join("\n"),
        location: work.place.map(|place| place.name).unwrap_or_default(),
    }
}
