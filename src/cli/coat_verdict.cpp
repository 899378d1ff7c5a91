#include "cli/coat_verdict.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "cli/coat_beneath.h"
#include "cli/log_call.h"
#include "cli/piece_log.h"
#include "plan/planner.h"
#include "plan/verdict.h"

namespace coatwright {
namespace {

// A window that is open, and the air until the film is past its critical stage, lie within this.
constexpr std::chrono::hours kLookAhead{24 * 28};
constexpr std::string_view kNotJudged = "not judged";

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

Result<Verdict> judge(const LogEntry& coat, const CoatBeneath& beneath, const Court& court) {
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
                                               const CoatBeneath& beneath,
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

}  // namespace

Result<JudgedCoat> judge_by_log(const LogEntry& coat,
                                const StoredPiece& piece,
                                const std::vector<LogEntry>& log,
                                const RecipeBook& book,
                                const Session& session) {
  const auto all = coats_beneath(coat, piece.faces, log);
  Time since = coat.at;
  for (const CoatBeneath& beneath : all) {
    since = beneath.coat == nullptr ? since : std::min(since, beneath.coat->at);
  }
  const auto air = session.air(since, coat.at + kLookAhead);
  if (!air) {
    return pass_on(air.error());
  }
  std::vector<LoggedFinding> findings;
  std::vector<LogEntry> coats;
  for (const CoatBeneath& beneath : all) {
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
