#include "app/deck.hpp"

#include <fmt/format.h>
#include <sqlite3.h>

#include <chrono>

#include "app/sheet.hpp"
#include "rules/text.hpp"

namespace pointwright::app {
namespace {

constexpr int schema_version = 1;

constexpr const char* schema =
    "CREATE TABLE IF NOT EXISTS card ("
    " id TEXT PRIMARY KEY,"     // likeness of the exercise, in hexadecimal
    " exercise TEXT NOT NULL,"  // as `drill --as json` writes it
    " box INTEGER NOT NULL,"    // 1 to 5
    " due INTEGER NOT NULL,"    // days from 1 January 1970
    " asked INTEGER NOT NULL DEFAULT 0,"
    " missed INTEGER NOT NULL DEFAULT 0);";

/// A prepared statement; finalized at the end.
class Statement {
 public:
  Statement(sqlite3* database, const char* text) {
    sqlite3_prepare_v2(database, text, -1, &statement_, nullptr);
  }
  ~Statement() { sqlite3_finalize(statement_); }
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;
  Statement(Statement&&) = delete;
  Statement& operator=(Statement&&) = delete;

  Statement& with(int place, const std::string& text) {
    sqlite3_bind_text(statement_, place, text.data(), static_cast<int>(text.size()),
                      SQLITE_TRANSIENT);
    return *this;
  }
  Statement& with(int place, std::int64_t number) {
    sqlite3_bind_int64(statement_, place, number);
    return *this;
  }
  /// Whether there is another row.
  bool step() {
    result_ = sqlite3_step(statement_);
    return result_ == SQLITE_ROW;
  }
  /// Whether the last step came to the end of what there is to do, without a fault.
  [[nodiscard]] bool done() const { return result_ == SQLITE_DONE; }
  /// Does all there is to do; returns whether that went well.
  bool run() {
    while (step()) {
    }
    return done();
  }
  [[nodiscard]] std::string text(int column) const {
    const auto* bytes = sqlite3_column_text(statement_, column);
    const int size = sqlite3_column_bytes(statement_, column);
    if (bytes == nullptr) return {};
    return {bytes, bytes + size};
  }
  [[nodiscard]] std::int64_t number(int column) const {
    return sqlite3_column_int64(statement_, column);
  }
  [[nodiscard]] bool is_null(int column) const {
    return sqlite3_column_type(statement_, column) == SQLITE_NULL;
  }

 private:
  sqlite3_stmt* statement_ = nullptr;
  int result_ = SQLITE_OK;
};

bool execute(sqlite3* database, const char* text) {
  return sqlite3_exec(database, text, nullptr, nullptr, nullptr) == SQLITE_OK;
}

std::string id_of(const finder::Exercise& exercise) {
  return fmt::format("{:016x}", finder::likeness(exercise));
}

}  // namespace

std::optional<Day> day_of(std::string_view date) {
  if (date.size() != 10 || date[4] != '-' || date[7] != '-') return std::nullopt;
  const auto year = text::number(date.substr(0, 4), 9999);
  const auto month = text::number(date.substr(5, 2), 12);
  const auto day = text::number(date.substr(8, 2), 31);
  if (!year || !month || !day) return std::nullopt;
  const std::chrono::year_month_day when{std::chrono::year(static_cast<int>(*year)),
                                         std::chrono::month(static_cast<unsigned>(*month)),
                                         std::chrono::day(static_cast<unsigned>(*day))};
  if (!when.ok()) return std::nullopt;
  return std::chrono::sys_days(when).time_since_epoch().count();
}

Day today() {
  const auto now = std::chrono::system_clock::now();
  return std::chrono::floor<std::chrono::days>(now).time_since_epoch().count();
}

void Deck::Close::operator()(sqlite3* database) const {
  sqlite3_close(database);
}

Result<Deck, Failure> Deck::open(const std::string& path) {
  sqlite3* database = nullptr;
  const int opened = sqlite3_open(path.c_str(), &database);
  Deck deck(database, path);
  const auto wrong = [&](std::string_view fix) {
    return failure("cannot-open-deck",
                   fmt::format("the deck {} cannot be used: {}", path, sqlite3_errmsg(database)),
                   std::string(fix));
  };
  if (opened != SQLITE_OK) return wrong("name a file in a folder that can be written to");
  int version = 0;
  {
    Statement ask(database, "PRAGMA user_version");
    if (!ask.step()) return wrong("it is not a deck; name another file");
    version = static_cast<int>(ask.number(0));
  }
  if (version > schema_version) {
    return failure("newer-deck", fmt::format("the deck {} was made by a newer version", path),
                   "use that version, or begin another deck");
  }
  if (sqlite3_exec(database, schema, nullptr, nullptr, nullptr) != SQLITE_OK ||
      sqlite3_exec(database, "PRAGMA user_version = 1", nullptr, nullptr, nullptr) != SQLITE_OK)
    return wrong("name a file that can be written to");
  return deck;
}

Failure Deck::not_read() const {
  return failure("cannot-read-deck",
                 fmt::format("the deck {} cannot be read: {}", harmless(path_),
                             sqlite3_errmsg(database_.get())),
                 "the file may be damaged; begin another deck, or put a copy of this one back");
}

Failure Deck::not_written() const {
  return failure("cannot-write-deck",
                 fmt::format("the deck {} cannot be written: {}", harmless(path_),
                             sqlite3_errmsg(database_.get())),
                 "see that the disk has room and the file may be changed; what was noted before "
                 "is kept");
}

Result<int, Failure> Deck::add(const std::vector<finder::Exercise>& exercises, Day today) {
  int added = 0;
  if (!execute(database_.get(), "BEGIN IMMEDIATE")) return not_written();
  const auto give_up = [&] {
    Failure why = not_written();
    execute(database_.get(), "ROLLBACK");
    return why;
  };
  for (const finder::Exercise& exercise : exercises) {
    Statement insert(database_.get(),
                     "INSERT OR IGNORE INTO card (id, exercise, box, due) VALUES (?, ?, 1, ?)");
    insert.with(1, id_of(exercise)).with(2, to_line(exercise_object(exercise))).with(3, today);
    if (!insert.run()) return give_up();
    added += sqlite3_changes(database_.get());
  }
  if (!execute(database_.get(), "COMMIT")) return give_up();
  return added;
}

Result<Deck::Due, Failure> Deck::due(Day today) {
  Due due;
  Statement ask(database_.get(),
                "SELECT id, exercise, box, due FROM card WHERE due <= ? ORDER BY due, box, rowid");
  ask.with(1, today);
  while (ask.step()) {
    const Json json = Json::parse(ask.text(1), nullptr, false);
    auto exercise = exercise_from(json);
    const auto box = ask.number(2);
    if (!exercise || box < 1 || box > last_box) {
      due.damaged.push_back(ask.text(0));
      continue;
    }
    due.cards.push_back({ask.text(0), std::move(*exercise), static_cast<int>(box), ask.number(3)});
  }
  if (!ask.done()) return not_read();
  return due;
}

std::optional<Failure> Deck::note(const DeckCard& card, bool right, Day today) {
  const int box = right ? std::min(card.box + 1, last_box) : 1;
  Statement update(database_.get(),
                   "UPDATE card SET box = ?, due = ?, asked = asked + 1, missed = missed + ? "
                   "WHERE id = ?");
  // A card that is known waits as long as the box it was in says; a missed one till tomorrow.
  const Day wait = right ? days_in_box(card.box) : 1;
  update.with(1, box).with(2, today + wait).with(3, right ? 0 : 1).with(4, card.id);
  if (!update.run()) return not_written();
  return std::nullopt;
}

Deck::State Deck::state() {
  State state;
  Statement ask(database_.get(), "SELECT count(*), min(due) FROM card");
  if (!ask.step()) return state;
  state.cards = static_cast<int>(ask.number(0));
  if (!ask.is_null(1)) state.next = ask.number(1);
  return state;
}

}  // namespace pointwright::app
