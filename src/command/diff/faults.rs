//! What is the matter with sources that do not compile, each fault told once.

use piecewright::fault::{Fault, Severity};

use super::super::arguments::{Diff, Format, Manner, Showing};
use super::super::show::{self, Judged};
use super::super::voice::{Screen, Voice};
use super::{Half, Pair};

/// Tells the faults of sources that do not compile; whether there are such.
pub fn tell(pairs: &[Pair], asked: &Diff, voice: &mut Voice) -> bool {
    let broken = broken(pairs);
    if broken.is_empty() {
        return false;
    }
    let format = if asked.format == Manner::Json { Format::Json } else { Format::Full };
    let showing = Showing { format, color: asked.color, most: Some(usize::MAX), deny_warnings: false, quiet: false };
    let shown = show::render(&broken, &showing, Screen::error(asked.color));
    voice.tell(&shown.text);
    voice.tell(&shown.closing());
    true
}

/// The errors of the sources that do not compile.
pub fn broken(pairs: &[Pair]) -> Vec<Judged> {
    let mut broken = Vec::new();
    let mut shared = Vec::new();
    for pair in pairs {
        for (half, other, side) in [(&pair.was, &pair.now, "OLD"), (&pair.now, &pair.was, "NEW")] {
            let Some(half) = half.as_ref().filter(|half| half.model.is_none()) else { continue };
            let mut errors = errors(half);
            errors.faults.retain_mut(|fault| keep(fault, other.as_ref(), (side, half), &mut shared));
            broken.push(errors);
        }
    }
    show::once(&mut broken);
    broken
}

/// Whether a fault is to be told. One without a place is told once if the other side has it too; else it says whose it is.
fn keep(fault: &mut Fault, other: Option<&Half>, (side, own): (&str, &Half), shared: &mut Vec<Fault>) -> bool {
    if fault.span().is_some() {
        return true;
    }
    if other.is_some_and(|half| half.judged.faults.contains(fault)) {
        let is_new = !shared.contains(fault);
        if is_new {
            shared.push(fault.clone());
        }
        return is_new;
    }
    let name = own.judged.sources.iter().next().map(|source| format!(" (`{}`)", source.name()));
    fault.message = format!("{side}{}: {}", name.unwrap_or_default(), fault.message);
    true
}

fn errors(half: &Half) -> Judged {
    let Judged { sources, faults, folder } = &half.judged;
    let faults = faults.iter().filter(|fault| fault.severity() == Severity::Error).cloned();
    Judged { sources: sources.clone(), faults: faults.collect(), folder: folder.clone() }
}
