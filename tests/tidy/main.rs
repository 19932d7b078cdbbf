//! The rules of the repository, as tests.
//!
//! A rule is a function over paths and texts that gives complaints. Each has a test of its own
//! beside it showing that it sees an offender, so that silence here means something. A rule about
//! a folder that is not there yet has nothing to say.

mod bare;
mod files;
mod first;
mod layering;
mod limits;
mod shape;
mod wording;

use files::File;

/// What a rule has to say: path, and what is wrong there.
type Complaints = Vec<String>;

fn each(files: &[File], rule: fn(&str, &str) -> Complaints) -> Complaints {
    let complain = |file: &File| -> Complaints {
        rule(&file.path, &file.text)
            .into_iter()
            .map(|what| format!("{}: {what}", file.path))
            .collect()
    };
    files.iter().flat_map(complain).collect()
}

fn none(complaints: Complaints) {
    assert!(complaints.is_empty(), "\n{}\n", complaints.join("\n"));
}

#[test]
fn the_repository_was_read() {
    let files = files::all();
    for path in [
        "Cargo.toml",
        "core/src/lib.rs",
        "app/src/main.rs",
        "tests/tidy/main.rs",
    ] {
        assert!(
            files
                .iter()
                .any(|file| file.path == path && !file.text.is_empty()),
            "{path} was not read"
        );
    }
}

#[test]
fn core_names_nothing_of_the_world_around_it() {
    none(each(&files::all(), layering::core_is_pure));
}

#[test]
fn core_keeps_no_floats() {
    none(each(&files::all(), layering::core_has_no_floats));
}

#[test]
fn screens_speak_to_the_ledger_only() {
    none(each(&files::all(), layering::screens_know_no_storage));
}

#[test]
fn ui_pieces_know_no_domain_type() {
    none(each(&files::all(), layering::ui_knows_no_core));
}

#[test]
fn markup_obeys_the_content_security_policy() {
    none(each(&files::all(), layering::markup_is_safe));
}

#[test]
fn nothing_is_left_half_done() {
    none(each(&files::all(), wording::nothing_left_over));
}

#[test]
fn no_test_is_skipped() {
    none(each(&files::all(), wording::no_test_skipped));
}

#[test]
fn no_registry_is_addressed() {
    none(each(&files::all(), wording::no_registry));
}

#[test]
fn texts_speak_of_the_project_only() {
    none(each(&files::all(), wording::no_strange_words));
}

#[test]
fn nothing_is_left_in_the_first_language() {
    none(wording::left_in_the_first_language(&files::all()));
    none(wording::example_in_the_first_language(&files::all()));
}

#[test]
fn what_stands_first_says_what_the_program_says() {
    none(first::says_what_the_program_says(&files::all()));
}

#[test]
fn the_readme_says_first_what_this_is() {
    none(each(&files::all(), wording::readme_opens_with_a_paragraph));
}

#[test]
fn files_stay_short() {
    none(each(&files::all(), shape::short_enough));
}

#[test]
fn every_module_says_why_it_exists() {
    none(each(&files::all(), shape::has_module_head));
}

#[test]
fn every_figure_names_its_source() {
    none(each(&files::all(), shape::figures_have_sources));
}

#[test]
fn the_top_level_holds_only_what_belongs_there() {
    none(each(&files::all(), shape::top_level));
}

#[test]
fn every_limit_is_tested() {
    none(limits::each_is_tested(&files::all()));
}

#[test]
fn no_module_is_dead() {
    none(shape::dead_modules(&files::all()));
}
