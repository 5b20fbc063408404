//! The log of a recipe, and what stands beside its steps, as they are kept.

use foldwright_engine::length::Length;
use foldwright_engine::paper::PhotoId;
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{EditError, Fault, Parts, Recipe, Spent, read, starters, write};

fn some_recipe() -> Recipe {
    starters()[0].recipe.clone()
}

fn photo(first: u8) -> PhotoId {
    PhotoId::of_digest([first; 32])
}

#[test]
fn what_was_kept_before_there_was_a_log_is_read_as_it_was_written() {
    let file = write(&[some_recipe()]);
    let value: serde_json::Value = serde_json::from_str(&file).unwrap();
    let recipe = &value["recipes"][0];
    assert!(recipe["name"].is_string());
    assert!(recipe.get("runs").is_none() && recipe.get("photos").is_none());
    assert_eq!(read(&file).unwrap(), [some_recipe()]);
}

#[test]
fn photographs_and_runs_come_back_from_a_file() {
    let mut recipe = some_recipe();
    recipe.photos.insert("gather".to_owned(), photo(1));
    let size = Some(Size {
        width: Length::mm(100),
        height: Length::mm(150),
    });
    let spent = |size, left| Spent {
        paper: "linen card".to_owned(),
        size,
        count: 3,
        left,
    };
    let spent = vec![spent(None, false), spent(size, false), spent(size, true)];
    let run = recipe.finish_run(1_767_225_600_000, 24, spent).unwrap();
    recipe.write_run(run, "For the quay.");
    recipe.picture_run(run, Some(photo(2)));
    let file = write(std::slice::from_ref(&recipe));
    assert_eq!(read(&file).unwrap(), [recipe]);
}

#[test]
fn the_photograph_of_the_run_finished_last_is_the_last() {
    let mut recipe = some_recipe();
    assert_eq!(recipe.last_picture(), None);
    let [late, early, bare] = [9, 5, 12].map(|at| recipe.finish_run(at, 1, Vec::new()).unwrap());
    recipe.picture_run(early, Some(photo(1)));
    assert_eq!(recipe.last_picture(), Some(photo(1)));
    recipe.picture_run(late, Some(photo(2)));
    assert_eq!(recipe.last_picture(), Some(photo(2)));
    recipe.picture_run(bare, Some(photo(3)));
    let taken_out = recipe.run(bare).cloned().expect("it is there");
    recipe.remove_run(bare);
    assert_eq!(recipe.last_picture(), Some(photo(2)));
    recipe.put_back_run(taken_out.clone());
    recipe.put_back_run(taken_out);
    assert_eq!(
        (recipe.last_picture(), recipe.runs.len()),
        (Some(photo(3)), 3)
    );
}

#[test]
fn two_runs_of_a_moment_have_names_of_their_own_and_the_log_has_its_limit() {
    let mut recipe = some_recipe();
    for _ in 0..Parts::Notes.most() {
        recipe.finish_run(5, 1, Vec::new()).expect("there is room");
    }
    assert!(recipe.check().is_empty());
    let more = recipe.finish_run(5, 1, Vec::new());
    assert_eq!(more, Err(EditError::TooMany(Parts::Notes)));
    let twice = recipe.runs[0].clone();
    recipe.runs.truncate(1);
    recipe.runs.push(twice);
    assert_eq!(recipe.check(), [Fault::Twice(Parts::Notes)]);
}
