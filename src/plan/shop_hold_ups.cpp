#include "plan/shop_hold_ups.h"

#include <algorithm>
#include <map>

namespace coatwright {
namespace {

using std::chrono::seconds;

/// What a link's wait is called that is neither for hours nor for air.
std::string words_of(const std::string& cause) {
  static const std::map<std::string, std::string> kWords = {
      {"drying", "drying"},
      {"dust", "dust in the room, or a film that it would fall on"},
      {"earliest", "a date before which nothing may begin"},
      {"people", "everybody at other work"},
      {"spray places", "spray places taken"},
      {"rack places", "rack places taken"},
      {"benches", "benches taken"}};
  const auto found = kWords.find(cause);
  return found == kWords.end() ? "" : found->second;
}

/// The chain from the plan's start to a piece's end, by what it was spent on.
std::map<std::string, seconds> spent_on(const PlanPiece& piece, Time from) {
  std::map<std::string, seconds> spent;
  seconds work = *piece.finish - from;
  for (const CriticalLink& link : piece.critical) {
    const seconds rest = std::max(seconds(0), link.waited - link.closed - link.air);
    spent["hours when nobody is there"] += link.closed;
    spent["air outside the limits of what is to be done"] += link.air;
    // What might have begun sooner without use is left out.
    if (const std::string words = words_of(link.cause); !words.empty()) {
      spent[words] += rest;
    }
    work -= link.waited;
  }
  spent["work on it"] += std::max(seconds(0), work);
  return spent;
}

void add_piece(const PlanPiece& piece, Plan& plan) {
  std::vector<HoldUp> hold_ups;
  for (const auto& [words, span] : spent_on(piece, plan.from)) {
    if (span > seconds(0)) {
      hold_ups.push_back({piece.name + ": " + words, span});
    }
  }
  std::stable_sort(hold_ups.begin(), hold_ups.end(), [](const HoldUp& a, const HoldUp& b) {
    return a.span > b.span;
  });
  plan.hold_ups.insert(plan.hold_ups.end(), hold_ups.begin(), hold_ups.end());
}

double burden(const PlanPiece& piece) {
  return static_cast<double>(piece.late.count()) * piece.weight;
}

}  // namespace

void add_shop_hold_ups(const std::vector<std::string>& reasons, Plan& plan) {
  for (const std::string& reason : reasons) {
    const bool is_said = std::any_of(plan.hold_ups.begin(),
                                     plan.hold_ups.end(),
                                     [&](const HoldUp& one) { return one.text == reason; });
    if (!is_said) {
      plan.hold_ups.push_back({reason, seconds(0)});
    }
  }
  std::vector<const PlanPiece*> pieces;
  for (const PlanPiece& piece : plan.pieces) {
    if (piece.finish && piece.late > seconds(0)) {
      pieces.push_back(&piece);
    }
  }
  std::stable_sort(pieces.begin(), pieces.end(), [](const PlanPiece* a, const PlanPiece* b) {
    return burden(*a) > burden(*b);
  });
  if (plan.fits) {
    const auto last =
        std::max_element(plan.pieces.begin(), plan.pieces.end(), [](const auto& a, const auto& b) {
          return a.finish < b.finish;
        });
    if (last != plan.pieces.end() && last->finish) {
      pieces.push_back(&*last);
    }
  }
  for (const PlanPiece* piece : pieces) {
    add_piece(*piece, plan);
  }
}

}  // namespace coatwright
