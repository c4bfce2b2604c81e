//! The messages that tell what changed between two editions.

use fluent_bundle::FluentValue;

use super::super::Words;
use super::listed;
use crate::revision::Edition;

listed! {
    CHANGES:

    // What changed between two editions
    change_title(was, now, same);
    change_heading(consequence);
    change_same(names, count);
    change_in_block(block, what);
    change_added(name, count);
    change_removed(name);
    change_foundation(name, what);
    change_redrawn(sections, distance, most, count);
    change_redrawn_all(distance, most);
    change_redrawn_sections(now, was, distance);
    change_redrawn_edge(distance);
    change_by(distance);
    change_by_less(distance);
    change_renumbered(list);
    change_renumbered_one(now, was);
    change_recoloured(sections, now, was, count);
    change_renamed(was, taken);
    change_relabelled(what, serves);
    change_beside(beside);
    change_counted(now, was, paper);
    change_strip(section, strip);
    change_section_was(now, was);
    change_piece(fabric, size);
    change_cut(sections, now, was, pieces);
    change_pieces(count, sections);
    change_pieces_of(pieces, size);
    change_cut_already_for(already, sections);
    change_cut_count(sections, now, was, size);
    change_cut_more(names, now, was);
    change_cut_new(sections, now, pieces);
    change_cut_gone(sections, was);
    change_cut_all(names, count);
    change_cut_none(names, count);
    change_row_all();
    change_row_already(already);
    change_row_more(count);
    change_row_times(count);
    change_row_pieces(count);
    change_buy(fabric, now, was, way);
    change_buy_new(fabric, now);
    change_buy_none(fabric, was);
    change_buy_colouring(colouring, what);
    change_joined(join);
    change_unjoined(join);
    change_reordered(joins, count);
    change_pressed(join, how, was);
    change_met(join);
    change_placed(place, here, former);
    change_placed_turned(place, here);
    change_strips_pressed(section);
    change_step(what);
    change_plans(fabrics, count);
    change_said(about, of, several);
    change_said_instead(what, now, was);
    change_said_new(what, now);
    change_said_gone(what, was);
    change_said_other(what);
    change_already(case, names, count);
    change_picture_alt(block, marks, count);
    change_pattern(case);
    change_none(count);
    change_none_named(names);
    change_asked(needed, edition, wrong);

    // The correction that goes to those who have the former edition
    correction_title(edition);
    correction_stamp(edition);
    correction_intro(title, size, was, now);
    correction_nothing();
    correction_picture(block);
    correction_picture_key();
    correction_already();
    correction_sections();
    correction_now();
    correction_before();
    correction_cut_already();
    correction_how();
    correction_print(count, names, some);
    correction_elsewhere();
    correction_sheets();
}

/// What is told of whole patterns by those who see no messages.
impl Words {
    /// Of a pattern: `no change`.
    #[must_use]
    pub fn pattern_same(&self) -> String {
        self.change_pattern("same")
    }

    /// Of a pattern: `this pattern is new`.
    #[must_use]
    pub fn pattern_new(&self) -> String {
        self.change_pattern("new")
    }

    /// Of a pattern: `this pattern is gone`.
    #[must_use]
    pub fn pattern_gone(&self) -> String {
        self.change_pattern("gone")
    }

    /// Of a pattern: `could not be compared`.
    #[must_use]
    pub fn pattern_not_compared(&self) -> String {
        self.change_pattern("broken")
    }

    /// That nothing changed in so many patterns.
    #[must_use]
    pub fn patterns_same(&self, count: usize) -> String {
        self.change_none(count)
    }

    /// That nothing changed in these patterns.
    #[must_use]
    pub fn patterns_same_named(&self, names: &str) -> String {
        self.change_none_named(names)
    }

    /// That a change asks for a higher edition than the source says, and whether because something printed or cut is wrong now.
    #[must_use]
    pub fn edition_asked(&self, needed: Edition, edition: Edition, wrong: bool) -> String {
        self.change_asked(needed.to_string(), edition.to_string(), if wrong { "yes" } else { "no" })
    }
}
