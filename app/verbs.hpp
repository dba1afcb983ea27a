#pragma once

#include "app/program.hpp"

/// The verbs, each in a file of its own. `declare_X` adds X to the program.
namespace pointwright::app {

void declare_check(Program& program);
void declare_build(Program& program);
void declare_diff(Program& program);
void declare_draw(Program& program);
void declare_answer(Program& program);
void declare_plays(Program& program);
void declare_rule(Program& program);
void declare_explain(Program& program);
void declare_new(Program& program);
void declare_advise(Program& program);
void declare_play(Program& program);
void declare_worth(Program& program);
void declare_chances(Program& program);
void declare_match(Program& program);
void declare_race(Program& program);
void declare_cube(Program& program);
void declare_tables(Program& program);
void declare_find(Program& program);
void declare_drill(Program& program);
void declare_table(Program& program);
void declare_bench(Program& program);
void declare_dice(Program& program);
void declare_serve(Program& program);

}  // namespace pointwright::app
