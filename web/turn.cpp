#include "web/turn.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include "rules/step.hpp"

namespace pointwright::web {

TurnGuide::TurnGuide(const Board& start, Side side, Roll roll) : roll_(roll) {
  const std::vector<LegalPlay> plays = legal_plays(start, side, roll);
  moves_ = plays.empty() ? 0 : plays.front().play.size();
  nodes_.push_back({start, roll.is_double() ? 4 : 1, roll.is_double() ? 0 : 1, false, {}});
  grow(side);
  for (std::size_t i = last_layer_; i < nodes_.size(); ++i) {
    const Board& end = nodes_[i].board;
    nodes_[i].live = plays.empty() || std::ranges::any_of(plays, [&](const LegalPlay& play) {
                       return play.after == end;
                     });
  }
  for (std::size_t i = last_layer_; i-- > 0;) {
    nodes_[i].live = std::ranges::any_of(nodes_[i].edges,
                                         [&](const Edge& edge) { return nodes_[edge.to].live; });
  }
}

// Every way to play so many dice, one layer for each die. Boards that meet again share a node.
void TurnGuide::grow(Side side) {
  std::size_t begin = 0;
  for (int depth = 0; depth < moves_; ++depth) {
    const std::size_t end = nodes_.size();
    // The nodes of the next layer by their board and the dice left.
    std::map<std::pair<std::array<Camp, 2>, int>, std::size_t> met;
    for (std::size_t i = begin; i < end; ++i) {
      for (const bool high : {true, false}) {
        const int left = high ? nodes_[i].high_left : nodes_[i].low_left;
        const int die = high ? roll_.high() : roll_.low();
        if (left == 0) continue;
        for (int from = bar_place; from >= 1; --from) {
          const auto place = static_cast<Place>(from);
          if (judge_step(nodes_[i].board, side, place, die) != Step::fine) continue;
          Node next{nodes_[i].board,
                    nodes_[i].high_left - (high ? 1 : 0),
                    nodes_[i].low_left - (high ? 0 : 1),
                    false,
                    {}};
          const Place to = landing(place, die);
          const bool hit = make_move(next.board, side, place, to);
          const auto [node, is_new] =
              met.try_emplace({next.board.camps, next.high_left}, nodes_.size());
          if (is_new) nodes_.push_back(std::move(next));
          nodes_[i].edges.push_back({{place, to, hit}, node->second});
        }
      }
    }
    begin = end;
  }
  last_layer_ = begin;
}

bool TurnGuide::is_complete(const Board& now) const {
  return std::any_of(nodes_.begin() + static_cast<std::ptrdiff_t>(last_layer_), nodes_.end(),
                     [&](const Node& node) { return node.live && node.board == now; });
}

bool TurnGuide::is_on_the_way(const Board& now) const {
  return std::ranges::any_of(nodes_,
                             [&](const Node& node) { return node.live && node.board == now; });
}

std::vector<int> TurnGuide::dice_left(const Board& now) const {
  for (const Node& node : nodes_) {
    if (!node.live || node.board != now) continue;
    std::vector<int> left(static_cast<std::size_t>(node.high_left), roll_.high());
    left.insert(left.end(), static_cast<std::size_t>(node.low_left), roll_.low());
    return left;
  }
  return {};
}

namespace {

int hits(const std::vector<Move>& steps) {
  return static_cast<int>(std::ranges::count_if(steps, &Move::hit));
}

}  // namespace

void TurnGuide::walk(const Node& node, std::vector<Move>& steps,
                     std::vector<Journeying>& found) const {
  for (const Edge& edge : node.edges) {
    const Node& next = nodes_[edge.to];
    if (!next.live || (!steps.empty() && steps.back().to != edge.move.from)) continue;
    steps.push_back(edge.move);
    const auto known = std::ranges::find_if(found, [&](const Journeying& each) {
      return each.from == steps.front().from && each.to == edge.move.to;
    });
    if (known == found.end()) {
      found.push_back({steps.front().from, edge.move.to, steps});
    } else if (steps.size() < known->steps.size() ||
               (steps.size() == known->steps.size() && hits(steps) < hits(known->steps))) {
      known->steps = steps;
    }
    if (edge.move.to != off_place) walk(next, steps, found);
    steps.pop_back();
  }
}

std::vector<Journeying> TurnGuide::journeys(const Board& now) const {
  std::vector<Journeying> found;
  std::vector<Move> steps;
  for (const Node& node : nodes_) {
    if (node.live && node.board == now) walk(node, steps, found);
  }
  return found;
}

}  // namespace pointwright::web
