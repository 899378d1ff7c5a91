#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "air/air_record.h"
#include "base/time.h"
#include "base/units.h"
#include "drying/stage.h"

/// What the log keeps of a piece. Entries are facts: added, never changed; a mistake is struck out.
namespace coatwright {

enum class LogKind {
  kCoat,      ///< A coat as applied.
  kStep,      ///< Another step that was done.
  kSkip,      ///< A step that was left out.
  kTouch,     ///< What a touch test found of a coat.
  kMoisture,  ///< The wood's moisture as measured.
  kOutcome,   ///< How it came out.
};

/// "coat", "step", "skip", "touch", "moisture", "outcome".
[[nodiscard]] std::string_view name_of(LogKind kind);

/// One finding on a coat as it was given when the coat was logged. It is kept as text, so that the
/// log stays readable when the judging changes.
struct LoggedFinding {
  std::string kind;  ///< "in window", "early", "late", "not abraded", "outside limits", "never",
                     ///< "not judged".
  std::chrono::seconds by{0};
  std::optional<Time> moment;    ///< When the window opens or closed.
  std::optional<double> chance;  ///< That the coat was inside its window; none: not judged.
  std::string text;
  std::string may_happen;
  std::string to_do;
  std::string source;
};

/// The shop's air at an entry's time, as it was known when the entry was made.
struct LoggedAir {
  Temperature temperature;
  RelativeHumidity humidity;
  AirOrigin origin;
};

struct LogStrike {
  std::string why;
  Time at;
};

/// What a touch test found, as it was understood when it was logged.
struct LoggedTouch {
  std::string words;  ///< As typed.
  Stage stage = Stage::kSetToTouch;
  bool reached = false;
};

struct LogEntry {
  std::int64_t id = 0;  ///< Given by the store.
  std::string piece;
  LogKind kind = LogKind::kStep;
  std::string step;      ///< Kind of step as a plan writes it; "apply" for a coat; "touch",
                         ///< "moisture", "outcome" for what was found.
  std::string grit;      ///< "P150"; empty where none.
  std::string part;      ///< Empty: the whole piece.
  std::string face;      ///< "front", "back", "both"; empty: the one face, or all of the step.
  std::string product;   ///< Recipe name, of a coat and of a coat left out; else empty.
  std::string revision;  ///< Of the product's recipe, for a coat; given by the store.
  Time at;               ///< When it was done.
  std::optional<Volume> amount;
  std::string by;  ///< The maker.
  std::string batch;
  std::string note;
  std::string why;       ///< Why it was left out.
  bool abraded = false;  ///< Said with a coat: the face was abraded before it.
  std::optional<LoggedAir> air;
  std::vector<LoggedFinding> findings;  ///< Of a coat, worst first.
  std::optional<LoggedTouch> touch;     ///< Of kTouch alone.
  std::optional<double> moisture;       ///< Of kMoisture alone: mass of water over dry mass.
  std::string outcome;                  ///< Of kOutcome: a word of outcome_named(); else empty.
  std::string photo;                    ///< File name as typed; the file is not looked for.
  Time logged_at;
  std::optional<LogStrike> strike;

  [[nodiscard]] bool struck() const { return strike.has_value(); }
};

}  // namespace coatwright
