#pragma once

#include <cstddef>
#include <vector>

namespace pointwright::chance {

/// A chance of winning the match as a function of the chance of winning the game: straight lines
/// between points of rising `game` and rising `match`.
class Piecewise {
 public:
  struct Point {
    double game;
    double match;
  };

  explicit Piecewise(std::vector<Point> points) : points_(std::move(points)) {}

  [[nodiscard]] const std::vector<Point>& points() const { return points_; }

  /// The value at a chance of winning the game from 0 to 1.
  [[nodiscard]] double at(double game) const {
    for (std::size_t i = 0; i + 1 < points_.size(); ++i) {
      const Point& a = points_[i];
      const Point& b = points_[i + 1];
      if (game <= b.game && b.game > a.game)
        return a.match + (game - a.game) / (b.game - a.game) * (b.match - a.match);
    }
    return points_.back().match;
  }

  /// The first chance of winning the game at which the value is reached; 1 if it never is.
  [[nodiscard]] double where(double match) const {
    if (match <= points_.front().match) return points_.front().game;
    for (std::size_t i = 0; i + 1 < points_.size(); ++i) {
      const Point& a = points_[i];
      const Point& b = points_[i + 1];
      if (match <= b.match && b.match > a.match)
        return a.game + (match - a.match) / (b.match - a.match) * (b.game - a.game);
    }
    return 1.0;
  }

 private:
  std::vector<Point> points_;
};

}  // namespace pointwright::chance
