#include <fmt/format.h>

#include "studio/page_parts.hpp"
#include "studio/telling.hpp"
#include "studio/wording.hpp"

namespace pointwright {

namespace {

std::string first_reason(const Faults& faults) {
  return faults.empty() ? "it cannot be read" : faults.front().reason;
}

void write_step(std::string& out, const Step& step, const Position& before, const Position& after,
                const SideNames& names) {
  const std::string action = action_words(step, before, after, names);
  const bool refused = step.kind == Step::Kind::attempt;
  if (!action.empty()) {
    out += fmt::format("<span class=\"action{}\">{}{}</span> ", refused ? " refused" : "",
                       escaped(action), refused ? " <span class=\"stamp\">refused</span>" : "");
  }
  out += fmt::format("<span class=\"words\">{}</span>", escaped(step.words));
  if (step.ruling) {
    out += fmt::format("<span class=\"ruling\">{}</span>", escaped(*step.ruling));
  }
}

}  // namespace

std::string known_words(const HowKnown& known) {
  switch (known.kind) {
    case HowKnown::Kind::exact:
      return "exact";
    case HowKnown::Kind::searched:
      return fmt::format("searched to depth {}", known.depth);
    case HowKnown::Kind::sampled:
      return fmt::format("sampled, standard error {:.4g}", known.standard_error);
  }
  return {};
}

void write_claims(std::string& out, const std::vector<ProvedClaim>& claims) {
  if (claims.empty()) {
    return;
  }
  out +=
      fmt::format("<details class=\"claims\"><summary>{} proved</summary>\n<ul>\n",
                  claims.size() == 1 ? "1 statement" : fmt::format("{} statements", claims.size()));
  for (const ProvedClaim& claim : claims) {
    const std::string& statement = claim.statement.empty() ? claim.text : claim.statement;
    out += fmt::format(
        "<li><details><summary>{}</summary><p>{} <small>Known how: "
        "{}.</small></p></details></li>\n",
        escaped(statement), escaped(claim.proof), known_words(claim.known));
  }
  out += "</ul></details>\n";
}

std::optional<PageFault> write_scene(std::string& out, const Scene& scene, PageContext& context) {
  const std::string where = fmt::format("chapter {}, board {}", context.chapter.id, scene.id);
  const std::string id = html_id(context.chapter.id) + "--" + html_id(scene.id);
  const SideNames& names = context.chapter.names;
  const auto start = read_position(scene.position);
  if (!start) {
    return PageFault{where, first_reason(start.error())};
  }
  BoardPicture opening;
  opening.view = scene.view;
  opening.names = names;
  opening.arrows = scene.arrows;
  opening.marks = scene.marks;
  const std::string title = scene.caption.empty() ? position_title(*start, names) : scene.caption;

  out += fmt::format(
      "<div class=\"scene{}\" id=\"{}\" role=\"group\" aria-label=\"Board: {}\"{}>\n<figure>\n",
      scene.steps.empty() ? "" : " show", id, escaped(title),
      board_attributes(scene.position, names, scene.view));
  context.boards.board(out, *start, opening, id, title);
  if (!scene.caption.empty()) {
    out += fmt::format("<figcaption>{}</figcaption>\n", escaped(scene.caption));
  }
  out += "</figure>\n";

  if (!scene.steps.empty()) {
    std::string frames;
    out += "<div class=\"telling\">\n<ol class=\"steps\">\n";
    out += fmt::format(
        "<li><span class=\"words\">{}.</span></li>\n",
        escaped(start->turn ? position_title(*start, names) : "The board at the start"));
    Telling telling(*start);
    int number = 0;
    for (const Step& step : scene.steps) {
      ++number;
      const auto position = read_position(step.position);
      if (!position) {
        return PageFault{fmt::format("{}, step {}", where, number), first_reason(position.error())};
      }
      const Position before = telling.position();
      const BoardPicture picture = telling.next(scene.view, names, step, *position);
      out += fmt::format("<li data-position=\"{}\"{}>", escaped(step.position),
                         step.kind == Step::Kind::place ? " data-placed" : "");
      write_step(out, step, before, *position, names);
      out += "</li>\n";
      const bool silent = step.kind == Step::Kind::say && step.marks.empty() && step.arrows.empty();
      if (!silent) {
        frames += fmt::format("<g data-step=\"{}\"><desc>{}</desc>\n", number,
                              escaped(spoken_position(*position, names)));
        BoardWriter::frame(frames, *position, picture);
        frames += "</g>\n";
      }
    }
    out += "</ol>\n</div>\n<template><svg>" + frames + "</svg></template>\n";
  }
  write_claims(out, scene.claims);
  out += "</div>\n";
  return std::nullopt;
}

}  // namespace pointwright
