#include "film/motion.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <utility>

#include "studio/board_marks.hpp"

namespace pointwright::film {

using namespace drawing;

namespace {

constexpr Milliseconds appear_time{330};
constexpr double lift = 0.14;      // how much larger a lifted checker looks
constexpr double sprite_edge = 3;  // room for strokes beyond a shape's own size

// Starts and ends at rest: the cubic 3t² - 2t³.
double eased(double t) {
  return t * t * (3 - 2 * t);
}
// Starts fast and comes to rest, as something thrown does.
double slowing(double t) {
  const double rest = 1 - t;
  return 1 - rest * rest * rest;
}

Spot mix(Spot a, Spot b, double t) {
  return {a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t};
}

Spot on_curve(Spot from, Spot bend, Spot to, double t) {
  return mix(mix(from, bend, t), mix(bend, to, t), t);
}

// A checker's way bends towards the middle of the board, where its arrow would.
Spot bend_of(const BoardGeometry& geometry, Spot from, Spot to) {
  const Spot half = mix(from, to, 0.5);
  const bool one_half = (from.y < geometry.middle()) == (to.y < geometry.middle());
  const double distance = std::hypot(to.x - from.x, to.y - from.y);
  const double bulge = one_half ? std::min(0.3 * distance + 10, 100.0) : 0;
  return {half.x, half.y + (half.y < geometry.middle() ? bulge : -bulge)};
}

Sprite checker_sprite(Side side) {
  Sprite sprite;
  sprite.shapes = figure_shapes(side == Side::light ? Figure::checker_light : Figure::checker_dark);
  sprite.reach = BoardGeometry::checker_radius + sprite_edge;
  return sprite;
}

void shift(Shape& shape, double dx, double dy) {
  const auto moved = [&](Spot spot) { return Spot{spot.x + dx, spot.y + dy}; };
  if (auto* disc = std::get_if<Disc>(&shape.form)) {
    disc->centre = moved(disc->centre);
  } else if (auto* box = std::get_if<Box>(&shape.form)) {
    box->corner = moved(box->corner);
  } else if (auto* label = std::get_if<Label>(&shape.form)) {
    label->at = moved(label->at);
  } else if (auto* stamp = std::get_if<Stamp>(&shape.form)) {
    stamp->at = moved(stamp->at);
  } else if (auto* path = std::get_if<Path>(&shape.form)) {
    for (Segment& segment : path->segments) {
      segment.to = moved(segment.to);
      segment.control1 = moved(segment.control1);
      segment.control2 = moved(segment.control2);
    }
  }
}

// Shapes that belong to one thing with a box around it: a die, the cube. Where it lies, and the
// shapes around the origin.
std::pair<Spot, Sprite> boxed_sprite(std::vector<Shape> shapes) {
  Sprite sprite;
  Spot centre;
  if (const auto* box = std::get_if<Box>(&shapes.front().form)) {
    centre = {box->corner.x + box->width / 2, box->corner.y + box->height / 2};
    sprite.reach = std::hypot(box->width, box->height) / 2 + sprite_edge;
  }
  for (Shape& shape : shapes) {
    shift(shape, -centre.x, -centre.y);
  }
  sprite.shapes = std::move(shapes);
  return {centre, sprite};
}

Layer* layer_of(Frame& frame, Layer::Kind kind) {
  for (Layer& layer : frame.layers) {
    if (layer.kind == kind) {
      return &layer;
    }
  }
  return nullptr;
}

void clear(Frame& frame, Layer::Kind kind) {
  if (Layer* layer = layer_of(frame, kind)) {
    layer->shapes.clear();
  }
}

// The picture of a position without marks and arrows, as long as something moves.
BoardPicture bare(BoardPicture picture) {
  picture.arrows.clear();
  picture.marks.clear();
  return picture;
}

std::string pointing_recipe(const BoardPicture& picture) {
  std::string text;
  for (const Arrow& arrow : picture.arrows) {
    text +=
        fmt::format(" arrow {} {} {} {}", name(arrow.side), arrow.from, arrow.to, arrow.refused);
  }
  for (const pointwright::Mark& mark : picture.marks) {
    text += fmt::format(" mark {} {}", name(mark.side), mark.place);
  }
  return text;
}

}  // namespace

Motion::Motion(const Shot& shot) {
  add_still(Milliseconds{0}, board_frame(shot.start, shot.opening));
  for (const Beat& beat : shot.beats) {
    add_beat(shot, beat);
  }
}

void Motion::add_still(Milliseconds begin, Frame frame) {
  scenery_.push_back({begin, stills_.size()});
  stills_.push_back(std::move(frame));
}

void Motion::add_beat(const Shot& shot, const Beat& beat) {
  const Milliseconds rest = beat.begin + beat.motion;
  if (beat.motion.count() > 0) {
    switch (beat.step->kind) {
      case Step::Kind::move:
      case Step::Kind::attempt:
        add_moves(beat);
        break;
      case Step::Kind::roll:
        add_dice(beat);
        break;
      case Step::Kind::offer:
      case Step::Kind::take:
        add_cube(shot, beat);
        break;
      case Step::Kind::say:
      case Step::Kind::drop:
      case Step::Kind::place:
        break;
    }
  }
  add_pointing(beat, rest);
}

// Marks and arrows come up over a picture without them. The arrows of a play that was made are left
// out: the checkers have shown it.
void Motion::add_pointing(const Beat& beat, Milliseconds begin) {
  BoardPicture picture = beat.picture;
  if (beat.step->kind == Step::Kind::move) {
    picture.arrows.clear();
  }
  Frame whole = board_frame(beat.after, picture);
  Track track;
  track.kind = Track::Kind::appear;
  track.begin = begin;
  track.end = std::min(begin + appear_time, beat.end());
  for (const Layer::Kind kind : {Layer::Kind::marks, Layer::Kind::arrows}) {
    const auto& shapes = layer_of(whole, kind)->shapes;
    track.sprite.shapes.insert(track.sprite.shapes.end(), shapes.begin(), shapes.end());
  }
  if (track.sprite.shapes.empty() || track.end <= track.begin) {
    add_still(begin, std::move(whole));
    return;
  }
  track.sprite.reach = std::hypot(whole.width, whole.height);
  add_still(begin, board_frame(beat.after, bare(picture)));
  const Milliseconds end = track.end;
  tracks_.push_back(std::move(track));
  add_still(end, std::move(whole));
}

void Motion::add_moves(const Beat& beat) {
  const bool attempt = beat.step->kind == Step::Kind::attempt;
  const BoardGeometry geometry(beat.picture.view, beat.picture.margins);
  // What lies beside the checkers stays as it was until they are down.
  BoardPicture picture = bare(beat.picture);
  Position position = beat.before;
  Frame before = board_frame(position, picture);
  const Layer margin = before.layer(Layer::Kind::margin) != nullptr
                           ? *before.layer(Layer::Kind::margin)
                           : Layer{Layer::Kind::margin, {}};
  const auto still_at = [&](Milliseconds begin) {
    Frame frame = board_frame(position, picture);
    if (Layer* layer = layer_of(frame, Layer::Kind::margin)) {
      *layer = margin;
    }
    add_still(begin, std::move(frame));
  };
  struct Leg {
    Arrow arrow;
    bool hit;
  };
  std::vector<Leg> legs;
  long parts = 0;  // a hit takes about two thirds of the time of a move
  Board board = position.board;
  for (const Arrow& arrow : beat.step->arrows) {
    if (board.count(arrow.side, arrow.from) == 0) {
      continue;  // an attempt with a checker that is not there
    }
    const Side other = opponent(arrow.side);
    const bool onto_point = arrow.to != off_place && arrow.to != bar_place;
    const bool hit = !attempt && onto_point && board.count(other, mirrored(arrow.to)) == 1;
    legs.push_back({arrow, hit});
    parts += hit ? 5 : 3;
    if (!attempt) {
      --board.of(arrow.side)[arrow.from];
      ++board.of(arrow.side)[arrow.to];
      if (hit) {
        --board.of(other)[mirrored(arrow.to)];
        ++board.of(other)[bar_place];
      }
    }
  }
  long done = 0;
  const auto clock = [&](long part) {
    return beat.begin + beat.motion * part / std::max(parts, 1L);
  };
  const auto travel = [&](Side side, Spot from, Spot to, Milliseconds begin, Milliseconds end) {
    Track track;
    track.kind = attempt ? Track::Kind::there_and_back : Track::Kind::travel;
    track.begin = begin;
    track.end = end;
    track.sprite = checker_sprite(side);
    track.from = from;
    track.to = to;
    track.bend = bend_of(geometry, from, to);
    tracks_.push_back(std::move(track));
  };
  for (const Leg& leg : legs) {
    const Side side = leg.arrow.side;
    const Side other = opponent(side);
    Board& now = position.board;
    const Spot from = geometry.checker(side, leg.arrow.from, now.count(side, leg.arrow.from) - 1);
    const bool shared = leg.arrow.to == off_place || leg.arrow.to == bar_place;
    const int others = shared ? 0 : now.count(other, mirrored(leg.arrow.to));
    const int height = leg.hit ? 0 : std::max(now.count(side, leg.arrow.to), others);
    const Spot to = geometry.checker(side, leg.arrow.to, height);
    --now.of(side)[leg.arrow.from];
    still_at(clock(done));
    travel(side, from, to, clock(done), clock(done + 3));
    done += 3;
    if (attempt) {
      ++now.of(side)[leg.arrow.from];
      continue;
    }
    ++now.of(side)[leg.arrow.to];
    if (leg.hit) {
      const Place there = mirrored(leg.arrow.to);
      const Spot bar = geometry.checker(other, bar_place, now.count(other, bar_place));
      --now.of(other)[there];
      still_at(clock(done));
      travel(other, to, bar, clock(done), clock(done + 2));
      ++now.of(other)[bar_place];
      done += 2;
    }
  }
}

void Motion::add_dice(const Beat& beat) {
  Frame landed = board_frame(beat.after, bare(beat.picture));
  std::vector<std::vector<Shape>> dice;
  for (const Shape& shape : layer_of(landed, Layer::Kind::dice)->shapes) {
    if (std::holds_alternative<Box>(shape.form)) {
      dice.emplace_back();
    }
    dice.back().push_back(shape);
  }
  clear(landed, Layer::Kind::dice);
  const double middle = landed.width / 2;
  add_still(beat.begin, std::move(landed));
  double further = 0;
  for (std::vector<Shape>& die : dice) {
    auto [centre, sprite] = boxed_sprite(std::move(die));
    Track track;
    track.kind = Track::Kind::tumble;
    track.begin = beat.begin;
    track.end = beat.begin + beat.motion;
    track.sprite = std::move(sprite);
    track.to = centre;
    // From the outer edge of the half board in which they land.
    const double edge =
        centre.x < middle ? BoardGeometry::field_left() + 20 : BoardGeometry::field_right() - 20;
    track.from = {edge, centre.y + 46 + further};
    track.bend = mix(track.from, track.to, 0.5);
    further -= 30;
    tracks_.push_back(std::move(track));
  }
}

void Motion::add_cube(const Shot& shot, const Beat& beat) {
  const auto cube_of = [](Frame frame) { return layer_of(frame, Layer::Kind::cube)->shapes; };
  // Before the offer the cube lies where it belongs; before the take it is still on offer.
  BoardPicture earlier = bare(beat.picture);
  earlier.offered_by.reset();
  if (beat.step->kind == Step::Kind::take) {
    earlier.offered_by = beat.before.turn;
  }
  Frame landed = board_frame(beat.after, bare(beat.picture));
  std::vector<Shape> now = cube_of(board_frame(beat.before, earlier));
  std::vector<Shape> then = cube_of(landed);
  if (now.empty() || then.empty()) {
    return;
  }
  clear(landed, Layer::Kind::cube);
  add_still(beat.begin, std::move(landed));
  auto [from, sprite] = boxed_sprite(std::move(now));
  auto [to, turned] = boxed_sprite(std::move(then));
  Track track;
  track.kind = Track::Kind::turn_over;
  track.begin = beat.begin;
  track.end = beat.begin + beat.motion;
  track.sprite = std::move(sprite);
  track.later = std::move(turned.shapes);
  track.from = from;
  track.to = to;
  track.bend = bend_of(BoardGeometry(beat.picture.view, shot.opening.margins), from, to);
  tracks_.push_back(std::move(track));
}

Sprite Motion::sprite_at(const Track& track, double share) {
  Sprite sprite = track.sprite;
  const double rise = std::sin(std::numbers::pi * share);
  switch (track.kind) {
    case Track::Kind::travel:
      sprite.at = on_curve(track.from, track.bend, track.to, eased(share));
      sprite.scale = 1 + lift * rise;
      break;
    case Track::Kind::there_and_back: {
      const double way = share < 0.5 ? 2 * share : 2 - 2 * share;
      sprite.at = on_curve(track.from, track.bend, track.to, eased(way));
      sprite.scale = 1 + lift * rise;
      break;
    }
    case Track::Kind::tumble:
      sprite.at = on_curve(track.from, track.bend, track.to, slowing(share));
      sprite.turn = (1 - slowing(share)) * 2.5 * std::numbers::pi;
      break;
    case Track::Kind::turn_over:
      sprite.at = on_curve(track.from, track.bend, track.to, eased(share));
      sprite.turn = eased(share) * 2 * std::numbers::pi;
      sprite.scale = 1 + lift * rise;
      if (share >= 0.5) {
        sprite.shapes = track.later;
      }
      break;
    case Track::Kind::appear:
      sprite.opacity = eased(share);
      break;
  }
  return sprite;
}

Moment Motion::at(Milliseconds time) const {
  Moment moment;
  for (const Scenery& scenery : scenery_) {
    if (scenery.begin <= time) {
      moment.still = scenery.still;
    }
  }
  for (const Track& track : tracks_) {
    if (track.begin <= time && time < track.end) {
      const double share = static_cast<double>((time - track.begin).count()) /
                           static_cast<double>((track.end - track.begin).count());
      moment.sprites.push_back(sprite_at(track, share));
    }
  }
  return moment;
}

std::string opening_recipe(const Shot& shot) {
  const View& view = shot.opening.view;
  return fmt::format("shot | {} | view {} {} {} {} | names {} / {}", to_text(shot.start),
                     name(view.bottom), view.home_on_left, name(view.numbering), view.bare,
                     shot.opening.names[Side::light], shot.opening.names[Side::dark]) +
         pointing_recipe(shot.opening);
}

std::string picture_recipe(const Shot& shot) {
  std::string text = fmt::format("{} | {} ms", opening_recipe(shot), shot.length.count());
  for (const Beat& beat : shot.beats) {
    text += fmt::format("\nbeat {} {} | {} | {} {} {}", static_cast<int>(beat.step->kind),
                        beat.step->action, to_text(beat.after), beat.begin.count(),
                        beat.length.count(), beat.motion.count());
    text += pointing_recipe(beat.picture);
  }
  return text;
}

}  // namespace pointwright::film
