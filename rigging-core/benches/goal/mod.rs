//! A time in wasm beside its goal.

use std::hint::black_box;
use std::time::Duration;
use wasm_bindgen_test::{Criterion, Instant, console_log};

/// Measures some work, and prints what it took at the mean, its goal, and the one as a multiple of the other; both in
/// milliseconds.
pub fn timed<T>(criterion: &mut Criterion, name: &str, goal: f64, mut work: impl FnMut() -> T) {
    let (mut spent, mut times) = (Duration::ZERO, 0);
    criterion.bench_function(name, |bencher| {
        bencher.iter_custom(|count| {
            let start = Instant::now();
            for _ in 0..count {
                black_box(work());
            }
            let took = start.elapsed();
            spent += took;
            times += count;
            took
        });
    });
    let mean = 1000.0 * spent.as_secs_f64() / times as f64;
    console_log!("{name}: {mean:.5} ms, goal {goal} ms, ratio {:.2}", mean / goal);
}
