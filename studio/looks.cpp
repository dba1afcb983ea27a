#include "studio/looks.hpp"

#include <array>

namespace pointwright {

using drawing::Role;
using drawing::role_count;

namespace {

struct TintEntry {
  std::string_view name;
  std::array<std::string_view, 3> colours;  // by Theme
};

constexpr std::array<TintEntry, tint_count> tints{{
    {"none", {"none", "none", "none"}},
    {"paper", {"#fdfaf2", "#191c20", "#ffffff"}},
    {"panel", {"#eee4cf", "#23272c", "#ffffff"}},
    {"field", {"#f8f2e3", "#1e2226", "#ffffff"}},
    {"bar", {"#e6dabf", "#2a2f35", "#eeeeee"}},
    {"sand", {"#dcc7a0", "#4a4338", "#f4f4f4"}},
    {"sage", {"#e3e8dd", "#26302f", "#ffffff"}},
    {"engraving", {"#7f9a8c", "#56776d", "#606060"}},
    {"ink", {"#2c2620", "#ece5d6", "#000000"}},
    {"soft-ink", {"#5d5344", "#b9b09d", "#333333"}},
    {"ivory", {"#fffdf6", "#f1e9d8", "#ffffff"}},
    {"ivory-line", {"#3a3128", "#2a241d", "#000000"}},
    {"ebony", {"#2f2b36", "#0e0f12", "#1a1a1a"}},
    {"ebony-line", {"#18151d", "#cfc5b2", "#000000"}},
    {"ebony-mark", {"#f3e7cb", "#e2d6bd", "#ffffff"}},
    {"allowed", {"#0b6a66", "#5fd0c2", "#000000"}},
    {"refused", {"#a92b1d", "#ff9180", "#000000"}},
    {"pointer", {"#8a4b08", "#f0b35b", "#000000"}},
    {"on-accent", {"#ffffff", "#14171a", "#ffffff"}},
}};

constexpr std::array<Look, role_count> looks{{
    {"page", Tint::paper},
    {"panel", Tint::panel},
    {"frame", Tint::none, Tint::ink, 2.5},
    {"rule", Tint::none, Tint::ink, 1},
    {"field", Tint::field},
    {"bar", Tint::bar},
    {"shelf", Tint::bar},
    {"plain", Tint::sand, Tint::soft_ink, 0.8},
    {"hatched", Tint::sage, Tint::soft_ink, 0.8},
    {"hatching", Tint::none, Tint::engraving, 1.3},
    {"number", Tint::soft_ink},
    {"name", Tint::ink, Tint::none, 0, Dress::bold},
    {"status", Tint::ink, Tint::none, 0, Dress::italic},
    {"note", Tint::soft_ink},
    {"light", Tint::ivory, Tint::ivory_line, 1.6},
    {"light-ring", Tint::none, Tint::ivory_line, 1},
    {"dark", Tint::ebony, Tint::ebony_line, 1.6},
    {"dark-star", Tint::ebony_mark},
    {"light-count", Tint::ivory_line, Tint::none, 0, Dress::bold},
    {"dark-count", Tint::ebony_mark, Tint::none, 0, Dress::bold},
    {"light-slab", Tint::ivory, Tint::ivory_line, 1.2},
    {"dark-slab", Tint::ebony, Tint::ebony_line, 1.2},
    {"dark-slab-line", Tint::none, Tint::ebony_mark, 1.4},
    {"tray", Tint::none, Tint::ink, 1},
    {"tray-count", Tint::ink, Tint::none, 0, Dress::bold},
    {"light-die", Tint::ivory, Tint::ivory_line, 1.6},
    {"dark-die", Tint::ebony, Tint::ebony_line, 1.6},
    {"light-pip", Tint::ivory_line},
    {"dark-pip", Tint::ebony_mark},
    {"cube", Tint::paper, Tint::ink, 2.2},
    {"cube-value", Tint::ink, Tint::none, 0, Dress::bold},
    {"mark", Tint::none, Tint::pointer, 2.6},
    {"mark-ground", Tint::pointer},
    {"mark-number", Tint::on_accent, Tint::none, 0, Dress::bold},
    {"halo", Tint::none, Tint::field, 8, Dress::round_ends},
    {"arrow", Tint::none, Tint::allowed, 4.2, Dress::round_ends},
    {"arrow-head", Tint::allowed, Tint::field, 1.4},
    {"refusal", Tint::none, Tint::refused, 4, Dress::broken},
    {"refusal-disc", Tint::refused, Tint::field, 1.8},
    {"refusal-cross", Tint::none, Tint::on_accent, 3.2, Dress::round_ends},
}};

}  // namespace

const Look& look_of(Role role) {
  return looks[static_cast<std::size_t>(role)];
}

std::string_view tint_name(Tint tint) {
  return tints[static_cast<std::size_t>(tint)].name;
}

std::string_view colour(Tint tint, Theme theme) {
  return tints[static_cast<std::size_t>(tint)].colours[static_cast<std::size_t>(theme)];
}

}  // namespace pointwright
