#include "cli/coat_tested.h"

#include <algorithm>

#include <fmt/format.h>

#include "cli/log_words.h"
#include "cli/piece_log.h"

namespace coatwright {
namespace {

// A stage that is not reached in four weeks is not told of.
constexpr std::chrono::hours kLookAhead{24 * 28};

/// The faces of a part of a piece; of one that is no unit those of the piece.
PieceFaces faces_of_part(const StoredPiece& piece, const std::string& part) {
  const StoredUnit* unit = piece.unit(part);
  return unit == nullptr ? piece.faces : unit->faces;
}

std::vector<std::string> parts_coated_alone(const std::vector<LogEntry>& log) {
  std::vector<std::string> parts;
  for (const LogEntry& entry : log) {
    const bool counts = entry.kind == LogKind::kCoat && !entry.struck() && !entry.part.empty();
    if (counts && std::find(parts.begin(), parts.end(), entry.part) == parts.end()) {
      parts.push_back(entry.part);
    }
  }
  return parts;
}

/// The parts that a finding may be of; "" stands for what is coated as a whole.
std::vector<std::string> parts_meant(const LogEntry& finding,
                                     const StoredPiece& piece,
                                     const std::vector<LogEntry>& log) {
  if (!finding.part.empty()) {
    return {finding.part};
  }
  std::vector<std::string> parts;
  for (const StoredUnit& unit : piece.units) {
    parts.push_back(unit.name);
  }
  if (parts.empty()) {
    parts = parts_coated_alone(log);
    parts.emplace_back();
  }
  return parts;
}

/// Adds a coat once; where its places were wiped at different times, the last of them counts.
void add_coat(const CoatBeneath& beneath, std::vector<CoatBeneath>& coats) {
  if (beneath.coat == nullptr) {
    return;
  }
  const auto known = std::find_if(
      coats.begin(), coats.end(), [&](const auto& one) { return one.coat == beneath.coat; });
  if (known == coats.end()) {
    coats.push_back(beneath);
  } else {
    known->ended = std::max(known->ended, beneath.ended);
  }
}

/// "entry 3, coat of dewaxed-shellac on the back, Fri 5 March 2027 10:00".
std::string coat_words(const LogEntry& coat, const Zone& zone) {
  return fmt::format("entry {}, {}, {}", coat.id, deed_of(coat), show_full(coat.at, zone));
}

Error no_coat_there(const LogEntry& test, const std::vector<LogEntry>& log, const Zone& zone) {
  std::string there;
  for (const LogEntry& entry : log) {
    if (entry.kind == LogKind::kCoat && !entry.struck()) {
      there += (there.empty() ? "" : "; ") + coat_words(entry, zone);
    }
  }
  return {ErrorCode::kUsage,
          fmt::format("{} at {}: no coat is logged there before it; {}",
                      deed_of(test),
                      show_full(test.at, zone),
                      there.empty() ? "none is logged of this piece, log it with `coatwright coat`"
                                    : "logged are: " + there),
          {}};
}

Error several_coats_there(const std::vector<CoatBeneath>& coats, const Zone& zone) {
  std::string there;
  for (const CoatBeneath& beneath : coats) {
    there += (there.empty() ? "" : "; ") + coat_words(*beneath.coat, zone);
  }
  return {
      ErrorCode::kUsage, "say with --part or --face of which coat the touch test is: " + there, {}};
}

bool may_be_one_place(const LogEntry& a, const LogEntry& b) {
  const auto agree = [](const std::string& one, const std::string& other) {
    return one.empty() || other.empty() || one == other;
  };
  return agree(a.part, b.part) && (agree(a.face, b.face) || a.face == "both" || b.face == "both");
}

/// The number of the one coat that a test is of; 0 where it is not of one.
std::int64_t coat_number(const LogEntry& test,
                         const StoredPiece& piece,
                         const std::vector<LogEntry>& log) {
  const auto coats = coats_found_on(test, piece, log);
  return coats.size() == 1 ? coats.front().coat->id : 0;
}

TouchTest test_of(const LogEntry& entry) {
  return {entry.id, entry.at, entry.touch->stage, entry.touch->reached};
}

}  // namespace

std::vector<CoatBeneath> coats_found_on(const LogEntry& finding,
                                        const StoredPiece& piece,
                                        const std::vector<LogEntry>& log) {
  std::vector<CoatBeneath> coats;
  for (const std::string& part : parts_meant(finding, piece, log)) {
    const PieceFaces faces = faces_of_part(piece, part);
    for (const std::string& face : faces_meant(finding.face, faces)) {
      add_coat(coat_beneath_at({part, face, faces, part.empty()}, finding.at, log), coats);
    }
  }
  return coats;
}

Result<CoatBeneath> coat_tested(const LogEntry& test,
                                const StoredPiece& piece,
                                const std::vector<LogEntry>& log,
                                const Zone& zone) {
  const auto coats = coats_found_on(test, piece, log);
  if (coats.empty()) {
    return pass_on(no_coat_there(test, log, zone));
  }
  if (coats.size() > 1) {
    return pass_on(several_coats_there(coats, zone));
  }
  return coats.front();
}

std::string tested_words(const CoatBeneath& beneath, Time at, const Zone& zone) {
  return fmt::format("of entry {}, {}, ended {}, {} before",
                     beneath.coat->id,
                     deed_of(*beneath.coat),
                     show_full(beneath.ended, zone),
                     show_duration(at - beneath.ended));
}

Result<std::optional<StageTimes>> stage_times(const CoatBeneath& beneath,
                                              Stage stage,
                                              const StoredPiece& piece,
                                              const RecipeBook& book,
                                              const Session& session) {
  const auto product = product_of_coat(*beneath.coat, book, session);
  if (!product && product.error().code == ErrorCode::kStore) {
    return pass_on(product.error());
  }
  if (!product) {
    return std::nullopt;
  }
  LaidCoat laid;
  laid.product = &*product;
  laid.begun = beneath.coat->at;
  laid.ended = beneath.ended;
  const StoredUnit* unit = piece.unit(beneath.coat->part);
  set_scheduled_film(unit == nullptr ? piece : piece.only(*unit), book, laid);
  const auto timing = laid.timing(stage);
  if (!timing) {
    return std::nullopt;
  }
  const Time latest = laid.ended + kLookAhead;
  const auto air = session.air(laid.begun, latest);
  if (!air) {
    return pass_on(air.error());
  }
  constexpr double kTenth = 0.1;
  DryingClocks clocks(*air, laid.begun);
  CoatProgress progress = laid.since_end(clocks);
  return StageTimes{progress.opens(*timing, normal_deviate(kTenth), latest),
                    progress.opens(*timing, normal_deviate(1.0 - kTenth), latest)};
}

std::vector<TouchContradiction> contradictions_with(const LogEntry& test,
                                                    const StoredPiece& piece,
                                                    const std::vector<LogEntry>& log) {
  const std::int64_t coat = coat_number(test, piece, log);
  std::vector<TouchTest> tests = {test_of(test)};
  for (const LogEntry& entry : log) {
    const bool counts = entry.touch && !entry.struck() && entry.id != test.id &&
                        may_be_one_place(entry, test) && coat_number(entry, piece, log) == coat;
    if (counts) {
      tests.push_back(test_of(entry));
    }
  }
  std::vector<TouchContradiction> found = touch_contradictions(tests);
  std::erase_if(found, [&](const TouchContradiction& one) {
    return one.reached != test.id && one.not_reached != test.id;
  });
  return found;
}

}  // namespace coatwright
