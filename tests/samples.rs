//! Every sample, at every size, obeys the laws; its model stays as it was reviewed.

mod support;

use support::{laws::check_laws, models_at, resolved, samples, stem};

#[test]
fn there_are_eight_samples() {
    assert_eq!(samples().len(), 8);
}

#[test]
fn samples_obey_the_laws_at_every_size() {
    for path in samples() {
        let pattern = resolved(&path);
        for model in models_at(&pattern, &[4.0, 8.0, 12.0, 20.0]) {
            check_laws(&format!("{} at {}", stem(&path), model.size), &model);
        }
    }
}
