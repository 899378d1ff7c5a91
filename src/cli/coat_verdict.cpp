#include "cli/coat_verdict.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "cli/log_call.h"
#include "cli/piece_log.h"
#include "plan/planner.h"
#include "plan/verdict.h"

namespace coatwright {
namespace {

// A window that is open, and the air until the film is past its critical stage, lie within this.
constexpr std::chrono::hours kLookAhead{24 * 28};
constexpr std::string_view kNotJudged = "not judged";

/// The faces that a word stands for; none: the one face, or all of them.
std::vector<std::string> faces_of(const std::string& face, PieceFaces piece) {
  if (face == "front" || face == "back") {
    return {face};
  }
  return face.empty() && piece == PieceFaces::kOne ? std::vector<std::string>{"front"}
                                                   : std::vector<std::string>{"front", "back"};
}

/// One face of one part.
struct Spot {
  std::string part;
  std::string face;
  PieceFaces piece;

  [[nodiscard]] bool is_in(const LogEntry& entry) const {
    const auto faces = faces_of(entry.face, piece);
    return (part.empty() || entry.part.empty() || part == entry.part) &&
           std::find(faces.begin(), faces.end(), face) != faces.end();
  }
};

/// What lies on a spot at a moment, from the log.
struct Beneath {
  const LogEntry* coat = nullptr;  ///< None: bare wood.
  Time ended;                      ///< The coat's wiping, or the coat itself.
  bool abraded = false;            ///< Since.
};

bool operator==(const Beneath& a, const Beneath& b) {
  return a.coat == b.coat && a.ended == b.ended && a.abraded == b.abraded;
}

Beneath beneath_at(const Spot& spot, Time at, const std::vector<LogEntry>& log) {
  Beneath beneath;
  for (const LogEntry& entry : log) {
    if (entry.at > at || entry.struck() || !spot.is_in(entry)) {
      continue;
    }
    if (entry.kind == LogKind::kCoat) {
      beneath = {&entry, entry.at, false};
    } else if (entry.kind == LogKind::kStep) {
      // Without a coat this is of a finish that the piece came in with; bare wood does not ask.
      beneath.abraded = beneath.abraded || entry.step == "abrade" || entry.step == "sand";
      beneath.ended = entry.step == "wipe" ? entry.at : beneath.ended;
    }
  }
  return beneath;
}

/// Gives a coat the film and the thinner with which the piece's schedule lays its product.
void set_scheduled_film(const StoredPiece& piece, const RecipeBook& book, LaidCoat& coat) {
  const auto schedule = book.schedule(piece.schedule);
  if (!schedule) {
    return;  // a schedule that is gone says nothing of the film
  }
  for (const ScheduleStep& step : (*schedule)->steps) {
    if (step.kind == ScheduleStepKind::kCoat && step.product == coat.product->name) {
      set_film(coat, step);
      return;
    }
  }
}

LoggedFinding logged(const Finding& finding) {
  return {std::string(name_of(finding.kind)),
          finding.by,
          finding.moment,
          finding.chance,
          finding.text,
          finding.may_happen,
          finding.to_do,
          finding.source};
}

LoggedFinding not_judged(const Error& error) {
  LoggedFinding finding;
  finding.kind = kNotJudged;
  finding.text = error.text();
  finding.to_do = "Try the pair on an off-cut, and go by the label.";
  return finding;
}

/// What judging needs besides the coat.
struct Court {
  const StoredPiece& piece;
  const RecipeBook& book;
  const Session& session;
  const AirRecord& air;
};

/// What the piece came in with, where nothing is logged yet; nothing on bare wood.
Result<std::optional<LaidCoat>> finish_beneath(const LogEntry& coat, const Court& court) {
  if (!court.piece.over) {
    return std::nullopt;
  }
  const auto finish = court.book.finish_on_piece(*court.piece.over);
  if (!finish) {
    return pass_on(finish.error());
  }
  LaidCoat laid;
  laid.product = *finish;
  laid.begun = laid.ended = ExistingFinish::before(coat.at);
  laid.came_in = true;
  return std::optional(laid);
}

Result<Verdict> judge(const LogEntry& coat, const Beneath& beneath, const Court& court) {
  const auto product = court.book.product(coat.product);
  if (!product) {
    return pass_on(product.error());
  }
  const bool abraded = beneath.abraded || coat.abraded;
  if (beneath.coat == nullptr) {
    const auto finish = finish_beneath(coat, court);
    if (!finish) {
      return pass_on(finish.error());
    }
    const LaidCoat* under = *finish ? &**finish : nullptr;
    return judge_coat(
        **product, coat.at, under, abraded, kVerdictConfidence, court.book, court.air);
  }
  const auto under = product_of_coat(*beneath.coat, court.book, court.session);
  if (!under) {
    return pass_on(under.error());
  }
  LaidCoat laid;
  laid.product = &*under;
  laid.begun = beneath.coat->at;
  laid.ended = beneath.ended;
  set_scheduled_film(court.piece, court.book, laid);
  return judge_coat(**product, coat.at, &laid, abraded, kVerdictConfidence, court.book, court.air);
}

/// Errors: kStore and kFault; all others are findings.
Result<std::vector<LoggedFinding>> findings_on(const LogEntry& coat,
                                               const Beneath& beneath,
                                               const Court& court) {
  const auto verdict = judge(coat, beneath, court);
  std::vector<LoggedFinding> findings;
  if (verdict) {
    std::transform(
        verdict->findings.begin(), verdict->findings.end(), std::back_inserter(findings), &logged);
    return findings;
  }
  const ErrorCode code = verdict.error().code;
  if (code == ErrorCode::kStore || code == ErrorCode::kFault) {
    return pass_on(verdict.error());
  }
  return std::vector{not_judged(verdict.error())};
}

/// Place in the order of the worst first.
std::ptrdiff_t rank_of(const LoggedFinding& finding) {
  static constexpr std::array<std::string_view, 7> kWorstFirst = {
      "never", "early", "late", "not abraded", "outside limits", kNotJudged, "in window"};
  return std::find(kWorstFirst.begin(), kWorstFirst.end(), finding.kind) - kWorstFirst.begin();
}

/// Joins the findings on several faces: each once, and "in window" only when it stands alone.
std::vector<LoggedFinding> joined(std::vector<LoggedFinding> all) {
  std::stable_sort(
      all.begin(), all.end(), [](const auto& a, const auto& b) { return rank_of(a) < rank_of(b); });
  std::vector<LoggedFinding> findings;
  for (LoggedFinding& finding : all) {
    const bool said = std::any_of(findings.begin(), findings.end(), [&](const auto& each) {
      return (each.kind == finding.kind && each.text == finding.text) ||
             finding.kind == "in window";
    });
    if (!said) {
      findings.push_back(std::move(finding));
    }
  }
  return findings;
}

/// What lies on each of the coat's faces, each once.
std::vector<Beneath> all_beneath(const LogEntry& coat,
                                 PieceFaces faces,
                                 const std::vector<LogEntry>& log) {
  std::vector<Beneath> all;
  for (const std::string& face : faces_of(coat.face, faces)) {
    const Beneath beneath = beneath_at({coat.part, face, faces}, coat.at, log);
    if (std::find(all.begin(), all.end(), beneath) == all.end()) {
      all.push_back(beneath);
    }
  }
  return all;
}

}  // namespace

Result<JudgedCoat> judge_by_log(const LogEntry& coat,
                                const StoredPiece& piece,
                                const std::vector<LogEntry>& log,
                                const RecipeBook& book,
                                const Session& session) {
  const auto all = all_beneath(coat, piece.faces, log);
  Time since = coat.at;
  for (const Beneath& beneath : all) {
    since = beneath.coat == nullptr ? since : std::min(since, beneath.coat->at);
  }
  const auto air = session.air(since, coat.at + kLookAhead);
  if (!air) {
    return pass_on(air.error());
  }
  std::vector<LoggedFinding> findings;
  std::vector<LogEntry> coats;
  for (const Beneath& beneath : all) {
    const auto more = findings_on(coat, beneath, {piece, book, session, *air});
    if (!more) {
      return pass_on(more.error());
    }
    findings.insert(findings.end(), more->begin(), more->end());
    if (beneath.coat != nullptr) {
      coats.push_back(*beneath.coat);
    }
  }
  return JudgedCoat{joined(std::move(findings)), logged_air(air->at(coat.at)), std::move(coats)};
}

}  // namespace coatwright
