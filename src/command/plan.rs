//! `piecewright plan`: with how few papers a source can be sewn, and how.

use std::fmt::Write as _;

use piecewright::BlockPlan;
use serde::Serialize;

use super::arguments::{Format, Plan};
use super::input::{self, Content};
use super::shelf::Folder;
use super::show::{self, Judged};
use super::voice::{Screen, Voice};
use super::{Outcome, Trouble};

/// A plan as one line of JSON.
#[derive(Serialize)]
struct Line<'p> {
    block: &'p str,
    own_papers: Option<u32>,
    papers: u32,
    match_points: u32,
    proved: bool,
    tree: &'p str,
    notation: &'p str,
}

/// Plans a source and tells the plan; its faults go to standard error.
pub fn run(asked: &Plan, voice: &mut Voice) -> Result<Outcome, Trouble> {
    let input = input::read(&asked.file)?;
    let folder = asked.reading.project.clone().unwrap_or_else(|| input.folder.clone());
    let (judged, plans) = match input.content {
        Content::Text(text) => {
            let planned = piecewright::plan(&input.name, &text, &Folder::open(&folder)?);
            (Judged { sources: planned.sources, faults: planned.faults, folder }, planned.plans)
        }
        Content::Unfit(sources, fault) => (Judged { sources, faults: vec![fault], folder }, Vec::new()),
    };
    let shown = show::render(&[judged], &asked.showing, Screen::error(asked.showing.color));
    let outcome = shown.outcome(asked.showing.deny_warnings);
    if outcome != Outcome::Fine {
        voice.tell(&shown.text);
        voice.tell(&shown.closing());
        return Ok(outcome);
    }
    let told: String = plans.iter().map(|plan| told(plan, asked)).collect();
    voice.say(&told);
    Ok(outcome)
}

fn told(plan: &BlockPlan, asked: &Plan) -> String {
    if asked.showing.format == Format::Json {
        let BlockPlan { block, own, papers, match_points, proved, tree, notation } = plan;
        let line = Line {
            block,
            own_papers: *own,
            papers: *papers,
            match_points: *match_points,
            proved: *proved,
            tree,
            notation,
        };
        // Texts and numbers always make JSON.
        return serde_json::to_string(&line).map(|line| line + "\n").unwrap_or_default();
    }
    let mut text = String::new();
    let papers = counted(plan.papers, "paper");
    let own = match plan.own {
        Some(own) if own > plan.papers => format!("; the source has {own}"),
        // The planner takes everything on paper.
        Some(own) if own < plan.papers => format!("; the source has {own}, and plain pieces without paper"),
        Some(_) => String::from(", as the source has it"),
        None => String::new(),
    };
    let proof = if plan.proved { "proved: no plan needs fewer" } else { "not proved: the search was cut short" };
    let points = counted(plan.match_points, "match point");
    // Writing to a string cannot fail.
    let _ = writeln!(text, "block {}: {papers} and {points}{own} ({proof})", plan.block);
    text.push_str(if asked.units { &plan.notation } else { &plan.tree });
    text.push('\n');
    text
}

fn counted(count: u32, what: &str) -> String {
    if count == 1 { format!("1 {what}") } else { format!("{count} {what}s") }
}
