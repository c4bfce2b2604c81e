//! Plans of strips for published instances.
use piecewright::cutting::stock::{Budget, Demand, Problem, plan};
use std::time::Instant;
fn main() {
    let folder = std::env::var("PACKING").unwrap_or_else(|_| format!("{}/benches/instances", env!("CARGO_MANIFEST_DIR")));
    let only = std::env::var("ONLY").unwrap_or_default();
    let known = std::fs::read_to_string(format!("{folder}/known.csv")).unwrap();
    let mut published = std::collections::BTreeMap::new();
    for line in known.lines().skip(1) {
        let cells: Vec<&str> = line.rsplit('"').next().unwrap().split(',').collect();
        if let (Ok(best), Ok(bound)) = (cells[3].parse::<u64>(), cells.get(5).unwrap().parse::<u64>()) {
            published.insert(cells[2].to_string(), (best, bound));
        } else if let (Ok(best), Ok(bound)) = (cells[3].parse::<u64>(), cells[4].parse::<u64>()) {
            published.insert(cells[2].to_string(), (best, bound));
        }
    }
    for turnable in [false, true] {
    for file in ["gcut-d.txt", "atp.txt"] {
        let text = std::fs::read_to_string(format!("{folder}/{file}")).unwrap();
        let mut lines = text.lines();
        let (mut gaps, mut pgaps, mut slow) = (vec![], vec![], 0.0_f64);
        while let Some(header) = lines.next() {
            let h: Vec<&str> = header.split_whitespace().collect();
            let n: usize = h[3].parse().unwrap();
            let demands: Vec<Demand> = (0..n).map(|_| {
                let v: Vec<u32> = lines.next().unwrap().split_whitespace().map(|x| x.parse().unwrap()).collect();
                Demand { width: v[0], height: v[1], count: v[2], turnable }
            }).collect();
            if !h[0].contains(&only) { continue; }
            let Some(&(best, bound)) = published.get(h[0]) else { continue };
            let problem = Problem { width: h[1].parse().unwrap(), demands, heights: None };
            let start = Instant::now();
            let budget = if std::env::var("USUAL").is_ok() { Budget::USUAL } else { Budget::THOROUGH };
            let plan = plan(&problem, budget).unwrap();
            let time = start.elapsed().as_secs_f64();
            let gap = (plan.length as f64 - plan.bound as f64) / plan.bound as f64 * 100.0;
            let pgap = (plan.length as f64 - bound as f64) / bound as f64 * 100.0;
            gaps.push(gap); pgaps.push(pgap); slow = slow.max(time);
            println!("{:8} {turnable:5} len {:7} bound {:7} gap {gap:6.3} pub bound {bound:7} gap {pgap:6.3} best {best:7} {} {time:6.2} s", h[0], plan.length, plan.bound,
                if plan.bound < bound { "LOW" } else if plan.length < best { "BETTER" } else { "" });
        }
        let mean = |v: &Vec<f64>| v.iter().sum::<f64>() / v.len() as f64;
        println!("{file} mean gap {:.4} to published bound {:.4} slowest {slow:.2}", mean(&gaps), mean(&pgaps));
    }}
}
