//! The day's plan: which of the open work fits into the minutes there are, and in which order to walk it.
//!
//! Invariants: the choice is the best there is (no other set of this work that fits is worth more), so it is never worse
//! than working through it by day; everything left out says why; nothing is stored but what was done.

mod bench_steps;
mod choose;
mod day;
mod load;
mod minutes;

pub use bench_steps::{LearnedSteps, StepMinutes, StepSpan, learned_steps, steps_of};
pub use choose::{JOBS_MAX, Job, choose, worth_of};
pub use day::{Chosen, DayPlan, LeftOut, LeftOutWhy, PlanStop, Stage, Why, day_plan};
pub use load::{LOAD_DAYS, LoadDay, load};
pub use minutes::{BATH_TENTHS, BENCH_TENTHS, Learned, OWN_TENTHS, WALK_TENTHS, learned_bench};
