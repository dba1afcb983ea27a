#include "chance/rule_sums.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "chance/race_counts.hpp"

namespace pointwright::rule_sums {
namespace {

/// A number with at most so many decimals, none that are zero at its end.
std::string number(double value, int decimals = 1) {
  const long scale = decimals == 2 ? 100 : 10;
  const long scaled = std::lround(std::abs(value) * static_cast<double>(scale));
  std::string text = std::to_string(scaled / scale);
  if (scaled % scale != 0) {
    std::string rest = std::to_string(scaled % scale);
    if (decimals == 2 && rest.size() < 2) rest.insert(0, "0");
    while (rest.ends_with('0')) rest.pop_back();
    text += "." + rest;
  }
  return (value < 0 && scaled != 0 ? "-" : "") + text;
}

/// "42 + 2 + 1 = 45", without the parts that are zero; "42" where nothing is added.
std::string added(double first, const std::vector<double>& more, double total) {
  std::string text = number(first);
  bool changed = false;
  for (const double part : more) {
    if (part == 0) continue;
    text += (part < 0 ? " - " : " + ") + number(std::abs(part));
    changed = true;
  }
  return changed ? text + " = " + number(total) : text;
}

std::string offer_word(const RaceTalk& talk) {
  return talk.owned ? "redouble" : "double";
}

/// "light is 4 ahead", of a lead that may be negative.
std::string lead_text(const RaceTalk& talk, double lead) {
  if (lead == 0) return "level";
  return talk.on_roll_name + " is " + number(std::abs(lead)) + (lead > 0 ? " ahead" : " behind");
}

/// "4 ahead", "level" or "4 behind": a threshold of a lead.
std::string threshold(double lead) {
  if (lead == 0) return "level";
  return number(std::abs(lead)) + (lead > 0 ? " ahead" : " behind");
}

std::string decided(const RaceTalk& talk, double lead, double offer, double take) {
  return lead_text(talk, lead) + "; " + offer_word(talk) + " from " + threshold(offer) +
         ", take up to " + threshold(take);
}

/// Ward's count of one side.
std::string ward_count(const Camp& camp, int more) {
  const double pips = race_counts::pips(camp);
  const double extra = race_counts::ward_extra(camp);
  const double checkers = 2.0 * std::max(0, more);
  return added(pips, {extra, checkers}, pips + extra + checkers);
}

std::string thorp_count(const Camp& camp) {
  const int left = race_counts::checkers_left(camp);
  return number(race_counts::pips(camp)) + " + 2 x " + number(left) + " + " + number(camp[1]) +
         " - " + number(6 - race_counts::gaps(camp, 1, 6)) + " = " +
         number(race_counts::thorp(camp));
}

std::string take_sum(double count, bool rounded) {
  const bool is_short = count <= race_counts::low_wastage_short;
  const double exact = is_short ? (count - 5) / 7 : count / 10 + 1;
  return (is_short ? "(" + number(count) + " - 5) / 7" : number(count) + " / 10 + 1") + " = " +
         number(exact) + (rounded ? ", rounded down " + number(std::floor(exact)) : "");
}

}  // namespace

std::string per_cent(const RaceTalk& talk) {
  const int own = race_counts::pips(talk.race.on_roll);
  const int other = race_counts::pips(talk.race.waiting);
  return number(other) + " - " + number(own) + " = " + number(other - own) + ", and " +
         number(other - own) + " / " + number(own) + " = " +
         number(100.0 * (other - own) / std::max(1, own)) + "%; " + offer_word(talk) + " from " +
         (talk.owned ? "9" : "8") + "%, take up to 12%";
}

std::string thorp(const RaceTalk& talk) {
  const double plain = race_counts::thorp(talk.race.on_roll);
  const bool longer = plain > race_counts::thorp_long;
  const double own = longer ? 1.1 * plain : plain;
  const double other = race_counts::thorp(talk.race.waiting);
  return talk.on_roll_name + " " + thorp_count(talk.race.on_roll) +
         (longer ? ", with a tenth " + number(own) : "") + "; " + talk.waiting_name + " " +
         thorp_count(talk.race.waiting) + "; " +
         decided(talk, other - own, talk.owned ? -1 : -2, 2);
}

std::string ward(const RaceTalk& talk) {
  const int more =
      race_counts::checkers_left(talk.race.on_roll) - race_counts::checkers_left(talk.race.waiting);
  const double own = race_counts::pips(talk.race.on_roll) +
                     race_counts::ward_extra(talk.race.on_roll) + 2.0 * std::max(0, more);
  const double other = race_counts::pips(talk.race.waiting) +
                       race_counts::ward_extra(talk.race.waiting) + 2.0 * std::max(0, -more);
  return talk.on_roll_name + " " + ward_count(talk.race.on_roll, more) + "; " + talk.waiting_name +
         " " + ward_count(talk.race.waiting, -more) + "; " + number(other) + " - " + number(own) +
         " = " + number(other - own) + ", and " + number(other - own) + " / " + number(own) +
         " = " + number(100 * (other - own) / std::max(1.0, own)) + "%; " + offer_word(talk) +
         " from " + (talk.owned ? "9" : "8") + "%, take up to 12%";
}

std::string keith(const RaceTalk& talk) {
  const int pips = race_counts::pips(talk.race.on_roll);
  const int extra = race_counts::keith_extra(talk.race.on_roll);
  const int other_pips = race_counts::pips(talk.race.waiting);
  const int other_extra = race_counts::keith_extra(talk.race.waiting);
  const int own = race_counts::with_seventh(pips + extra);
  const int other = other_pips + other_extra;
  return talk.on_roll_name + " " + added(pips, {static_cast<double>(extra)}, pips + extra) +
         ", with a seventh " + number(own) + "; " + talk.waiting_name + " " +
         added(other_pips, {static_cast<double>(other_extra)}, other) + "; " +
         decided(talk, other - own, talk.owned ? -3 : -4, -2);
}

std::string kleinman(const RaceTalk& talk) {
  const int own = race_counts::pips(talk.race.on_roll);
  const int other = race_counts::pips(talk.race.waiting);
  const int lead = other - own;
  const int sum = own + other;
  const std::string facts = "D = " + number(lead) + ", S = " + number(sum);
  const std::string rest =
      "; " + offer_word(talk) + " from " + (talk.owned ? "0.61" : "0.44") + ", take up to 1.2";
  if (lead + 4 <= 0) return facts + ": D + 4 is not above 0, so it counts 0" + rest;
  const int spread = std::max(1, sum - 4);
  return facts + ": (" + number(lead) + " + 4)² / " +
         (sum - 4 >= 1 ? "(" + number(sum) + " - 4)" : std::string{"1"}) + " = " +
         number((lead + 4) * (lead + 4)) + " / " + number(spread) + " = " +
         number(static_cast<double>((lead + 4) * (lead + 4)) / spread, 2) + rest;
}

std::string effective(const RaceTalk& talk) {
  const double raw = race_counts::effective(talk.race.on_roll);
  const double other_raw = race_counts::effective(talk.race.waiting);
  const double own = std::max(0.0, raw - race_counts::least_wastage);
  const double other = other_raw - race_counts::least_wastage;
  const double take = own <= race_counts::low_wastage_short ? (own - 5) / 7 : own / 10 + 1;
  return talk.on_roll_name + " " + number(raw, 2) + " - 7 = " + number(raw - 7, 2) +
         (raw < race_counts::least_wastage ? ", counted as 0" : "") + "; " + talk.waiting_name +
         " " + number(other_raw, 2) + " - 7 = " + number(other, 2) + "; last take " +
         take_sum(own, false) + "; " +
         decided(talk, other - own, take - (talk.owned ? 2 : 3), take);
}

std::string low_wastage(const RaceTalk& talk) {
  const int own = race_counts::pips(talk.race.on_roll);
  const int other = race_counts::pips(talk.race.waiting);
  const double take = race_counts::last_take(own);
  return "last take " + take_sum(own, true) + "; " + number(other) + " - " + number(own) + " = " +
         number(other - own) + ": " + decided(talk, other - own, take - (talk.owned ? 2 : 3), take);
}

}  // namespace pointwright::rule_sums
