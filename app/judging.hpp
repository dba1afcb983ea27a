#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "app/failure.hpp"
#include "app/position_input.hpp"
#include "judge/search.hpp"
#include "rules/position.hpp"
#include "rules/result.hpp"

/// What the verbs share that ask the judge.
namespace pointwright::app {

/// Why the judge cannot say what a position is worth, with the whole line underlined: the game or
/// the match is over, or the match is longer than the match table. Precondition: it has a turn.
std::optional<Failure> unfit(const Position& position, const GivenLine& given);

/// As many threads as there are processors.
unsigned threads_by_default();

/// How many threads share the work: the number given to --threads, or as many as by default.
Result<unsigned, Failure> threads_of(const std::optional<std::string>& word);

/// A search by the shipped nets, to look at most so many rolls ahead. Two rolls take long enough to
/// be shared by threads; the answers are the same for any number of them.
std::unique_ptr<judge::Search> make_search(int depth, unsigned threads);

/// How a number that comes from there is known: a word of app/numbers.hpp.
std::string_view known_word(judge::Origin origin);

}  // namespace pointwright::app
