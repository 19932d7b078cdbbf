//! The choice itself: jobs worth something, each taking minutes, some sharing a set-up that is paid once.
//!
//! Exact, by dynamic programming over tenths of a minute: 200 jobs in a working day are some million steps. Ties go to
//! the job that stands first, so that the same morning gives the same plan on every phone.

/// Jobs looked at; the caller puts the most urgent first.
pub const JOBS_MAX: usize = 1_000;
/// Room looked at: a day and a night, in tenths of a minute.
const ROOM_TENTHS_MAX: u32 = 14_400;

/// One job.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Job {
    /// Minutes it takes, in tenths.
    pub tenths: u32,
    /// What doing it today is worth; 0 is never chosen.
    pub worth: u32,
    /// Which of the set-ups it needs; one beyond the list costs nothing.
    pub set_up: usize,
}

/// One bit for each tenth of a minute of room.
struct Marks(Vec<u64>);

impl Marks {
    fn new(width: usize) -> Self {
        Self(vec![0; width / 64 + 1])
    }

    fn set(&mut self, at: usize, on: bool) {
        if let Some(word) = self.0.get_mut(at / 64) {
            let bit = 1u64 << (at % 64);
            *word = if on { *word | bit } else { *word & !bit };
        }
    }

    fn has(&self, at: usize) -> bool {
        self.0
            .get(at / 64)
            .is_some_and(|word| word >> (at % 64) & 1 == 1)
    }
}

/// What one group did to the table: where it was opened, and for each of its jobs (number, tenths) where it was taken.
struct Layer {
    opened: Marks,
    taken: Vec<(usize, usize, Marks)>,
}

/// Which of the jobs to do in the room there is: the set that is worth most, job by job.
///
/// `set_ups` are tenths of a minute, paid once if any job that needs them is chosen. Jobs beyond [`JOBS_MAX`] are not
/// looked at.
#[must_use]
pub fn choose(jobs: &[Job], set_ups: &[u32], room_tenths: u32) -> Vec<bool> {
    let mut chosen = vec![false; jobs.len()];
    let room = usize::try_from(room_tenths.min(ROOM_TENTHS_MAX)).unwrap_or(0);
    let groups = groups(jobs, set_ups.len());
    let mut best: Vec<u64> = vec![0; room + 1];
    let mut layers: Vec<Layer> = Vec::new();
    for (group, members) in &groups {
        let set_up = set_ups.get(*group).copied().unwrap_or(0);
        let set_up = usize::try_from(set_up).unwrap_or(usize::MAX);
        // `inside[c]`: the best with this group's set-up paid for, in the first c tenths; `None` while it does not fit.
        let mut inside: Vec<Option<u64>> = (0..=room)
            .map(|c| {
                c.checked_sub(set_up)
                    .and_then(|left| best.get(left).copied())
            })
            .collect();
        let mut taken = Vec::new();
        for (at, job) in members {
            taken.push((*at, tenths(job), take(&mut inside, job)));
        }
        let mut opened = Marks::new(room);
        for (c, (before, with)) in best.iter_mut().zip(&inside).enumerate() {
            if let Some(with) = with.filter(|with| *with > *before) {
                *before = with;
                opened.set(c, true);
            }
        }
        layers.push(Layer { opened, taken });
    }
    let mut left = room;
    for (layer, (group, _)) in layers.iter().zip(&groups).rev() {
        if !layer.opened.has(left) {
            continue;
        }
        for (at, needs, marks) in layer.taken.iter().rev() {
            if marks.has(left) {
                left = left.saturating_sub(*needs);
                if let Some(mark) = chosen.get_mut(*at) {
                    *mark = true;
                }
            }
        }
        let set_up = set_ups.get(*group).copied().unwrap_or(0);
        left = left.saturating_sub(usize::try_from(set_up).unwrap_or(usize::MAX));
    }
    chosen
}

/// What a choice is worth, and the tenths of a minute it takes with its set-ups.
#[must_use]
pub fn worth_of(jobs: &[Job], set_ups: &[u32], chosen: &[bool]) -> (u64, u64) {
    let mut paid = vec![false; set_ups.len()];
    let (mut worth, mut tenths) = (0u64, 0u64);
    for (job, _) in jobs.iter().zip(chosen).filter(|(_, chosen)| **chosen) {
        worth = worth.saturating_add(u64::from(job.worth));
        tenths = tenths.saturating_add(u64::from(job.tenths));
        if let (Some(done), Some(cost)) = (paid.get_mut(job.set_up), set_ups.get(job.set_up))
            && !*done
        {
            *done = true;
            tenths = tenths.saturating_add(u64::from(*cost));
        }
    }
    (worth, tenths)
}

fn tenths(job: &Job) -> usize {
    usize::try_from(job.tenths).unwrap_or(usize::MAX)
}

/// Jobs by the set-up they need, each with its number.
fn groups<'a>(jobs: &'a [Job], set_ups: usize) -> Vec<(usize, Vec<(usize, &'a Job)>)> {
    let mut groups: Vec<(usize, Vec<(usize, &'a Job)>)> = Vec::new();
    let worthy = jobs.iter().enumerate().take(JOBS_MAX);
    for (at, job) in worthy.filter(|(_, job)| job.worth > 0) {
        let group = job.set_up.min(set_ups);
        match groups.iter_mut().find(|(known, _)| *known == group) {
            Some((_, members)) => members.push((at, job)),
            None => groups.push((group, vec![(at, job)])),
        }
    }
    groups
}

/// Adds one job to the table, from the largest room down so that it is taken once; marks where it was taken.
fn take(inside: &mut [Option<u64>], job: &Job) -> Marks {
    let needs = tenths(job);
    let mut marks = Marks::new(inside.len());
    for c in (0..inside.len()).rev() {
        let Some(without) = c.checked_sub(needs).and_then(|left| *inside.get(left)?) else {
            continue;
        };
        let with = without.saturating_add(u64::from(job.worth));
        if let Some(slot) = inside.get_mut(c)
            && slot.is_some_and(|before| with > before)
        {
            *slot = Some(with);
            marks.set(c, true);
        }
    }
    marks
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn job(tenths: u32, worth: u32, set_up: usize) -> Job {
        Job {
            tenths,
            worth,
            set_up,
        }
    }

    /// Every set of jobs, one after another.
    fn by_trying_all(jobs: &[Job], set_ups: &[u32], room: u32) -> u64 {
        (0u32..1 << jobs.len())
            .map(|set| {
                let chosen: Vec<bool> = (0..jobs.len()).map(|at| set >> at & 1 == 1).collect();
                worth_of(jobs, set_ups, &chosen)
            })
            .filter(|(_, tenths)| *tenths <= u64::from(room))
            .map(|(worth, _)| worth)
            .max()
            .unwrap_or(0)
    }

    /// In the order given, whatever still fits.
    fn in_order(jobs: &[Job], set_ups: &[u32], room: u32) -> u64 {
        let mut chosen = vec![false; jobs.len()];
        for at in 0..jobs.len() {
            chosen[at] = true;
            if worth_of(jobs, set_ups, &chosen).1 > u64::from(room) {
                chosen[at] = false;
            }
        }
        worth_of(jobs, set_ups, &chosen).0
    }

    #[test]
    fn one_bath_is_made_for_two_lots_or_for_none() {
        let jobs = [job(50, 10, 0), job(50, 10, 0), job(60, 15, 1)];
        let set_ups = [120];
        assert_eq!(choose(&jobs, &set_ups, 219), [false, false, true]);
        assert_eq!(choose(&jobs, &set_ups, 220), [true, true, false]);
        assert_eq!(choose(&jobs, &set_ups, 280), [true, true, true]);
        assert_eq!(choose(&jobs, &set_ups, 0), [false, false, false]);
        assert_eq!(choose(&[], &set_ups, 100), Vec::<bool>::new());
    }

    #[test]
    fn work_that_takes_no_time_is_always_chosen_and_worthless_work_never() {
        let jobs = [job(0, 1, 9), job(10, 0, 9)];
        assert_eq!(choose(&jobs, &[], 0), [true, false]);
        assert_eq!(choose(&jobs, &[], u32::MAX), [true, false]);
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(300))]

        #[test]
        fn no_other_plan_of_twelve_jobs_is_worth_more(
            jobs in prop::collection::vec((0u32..60, 0u32..40, 0usize..4), 0..12),
            set_ups in prop::collection::vec(0u32..50, 3),
            room in 0u32..240,
        ) {
            let jobs: Vec<Job> = jobs.into_iter().map(|(t, w, s)| job(t, w, s)).collect();
            let chosen = choose(&jobs, &set_ups, room);
            let (worth, tenths) = worth_of(&jobs, &set_ups, &chosen);
            prop_assert!(tenths <= u64::from(room));
            prop_assert_eq!(worth, by_trying_all(&jobs, &set_ups, room));
        }

        #[test]
        fn never_worse_than_going_through_it_by_day(
            jobs in prop::collection::vec((1u32..200, 1u32..200, 0usize..6), 0..=200),
            set_ups in prop::collection::vec(0u32..120, 5),
            room in 0u32..3_000,
        ) {
            let jobs: Vec<Job> = jobs.into_iter().map(|(t, w, s)| job(t, w, s)).collect();
            let chosen = choose(&jobs, &set_ups, room);
            let (worth, tenths) = worth_of(&jobs, &set_ups, &chosen);
            prop_assert!(tenths <= u64::from(room));
            prop_assert!(worth >= in_order(&jobs, &set_ups, room));
        }
    }
}
