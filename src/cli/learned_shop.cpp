#include "cli/learned_shop.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "cli/coat_tested.h"
#include "cli/log_words.h"
#include "cli/piece_log.h"
#include "cli/shop_pace_page.h"
#include "learn/coat_lesson.h"

namespace coatwright {
namespace {

/// A coat of the log with the tests that are of it.
struct TestedCoat {
  CoatBeneath beneath;
  std::vector<TouchTest> tests;
};

/// Why a coat that was tested does not count, by its log alone; empty: it does.
std::string disturbed_by(const LogEntry& coat) {
  constexpr double kLikelyReady = 0.5;
  const bool early =
      std::any_of(coat.findings.begin(), coat.findings.end(), [](const LoggedFinding& finding) {
        return finding.kind == "never" ||
               (finding.kind == "early" && finding.chance.value_or(0.0) < kLikelyReady);
      });
  return early ? "it went on before what lies beneath was ready, which holds it back" : "";
}

using IntervalsByCoat = std::map<std::int64_t, std::vector<CoatInterval>>;

/// Reads the lessons of one piece.
class PieceLessons {
 public:
  PieceLessons(const TouchedPiece& piece, const RecipeBook& book, const Session& session)
      : piece_(piece), book_(book), session_(session) {}

  Result<void> add_to(IntervalsByCoat& intervals, std::vector<CoatLeftAside>& left_aside) {
    for (const TestedCoat& tested : tested_coats()) {
      const auto lesson = lesson_from(tested);
      if (!lesson) {
        return pass_on(lesson.error());
      }
      if (lesson->left_aside.empty()) {
        intervals[tested.beneath.coat->id] = lesson->intervals;
      } else {
        left_aside.push_back({tested.beneath.coat->id, sentence_on(*tested.beneath.coat, *lesson)});
      }
    }
    return {};
  }

 private:
  [[nodiscard]] std::vector<TestedCoat> tested_coats() const {
    std::map<std::int64_t, TestedCoat> by_coat;
    for (const LogEntry& entry : piece_.log) {
      if (!entry.touch || entry.struck()) {
        continue;
      }
      for (const CoatBeneath& beneath : coats_found_on(entry, piece_.piece, piece_.log)) {
        TestedCoat& tested =
            by_coat.try_emplace(beneath.coat->id, TestedCoat{beneath, {}}).first->second;
        tested.beneath.ended = std::max(tested.beneath.ended, beneath.ended);
        tested.tests.push_back({entry.id, entry.at, entry.touch->stage, entry.touch->reached});
      }
    }
    std::vector<TestedCoat> coats;
    for (auto& [id, tested] : by_coat) {
      coats.push_back(std::move(tested));
    }
    return coats;
  }

  Result<CoatLesson> lesson_from(const TestedCoat& tested) const {
    const LogEntry& coat = *tested.beneath.coat;
    CoatLesson lesson;
    lesson.left_aside = disturbed_by(coat);
    if (!lesson.left_aside.empty()) {
      return lesson;
    }
    const auto product = product_of_coat(coat, book_, session_);
    if (!product && product.error().code == ErrorCode::kStore) {
      return pass_on(product.error());
    }
    if (!product) {
      lesson.left_aside = "its recipe can no longer be read";
      return lesson;
    }
    return lesson_from(tested, *product);
  }

  Result<CoatLesson> lesson_from(const TestedCoat& tested, const Product& product) const {
    const LogEntry& coat = *tested.beneath.coat;
    TouchedCoat touched{{}, tested.tests};
    touched.coat.product = &product;
    touched.coat.begun = coat.at;
    touched.coat.ended = tested.beneath.ended;
    const StoredUnit* unit = piece_.piece.unit(coat.part);
    set_scheduled_film(
        unit == nullptr ? piece_.piece : piece_.piece.only(*unit), book_, touched.coat);
    const Time last =
        std::max_element(tested.tests.begin(),
                         tested.tests.end(),
                         [](const TouchTest& a, const TouchTest& b) { return a.at < b.at; })
            ->at;
    const auto air = session_.air(coat.at, last);
    if (!air) {
      return pass_on(air.error());
    }
    DryingClocks clocks(*air, coat.at);
    return lesson_of(touched, clocks);
  }

  [[nodiscard]] std::string sentence_on(const LogEntry& coat, const CoatLesson& lesson) const {
    std::string text = fmt::format("The touch tests of entry {} ({}, {}) teach nothing: {}.",
                                   coat.id,
                                   piece_.piece.name,
                                   deed_of(coat),
                                   lesson.left_aside);
    for (const TouchContradiction& one : lesson.contradictions) {
      text += fmt::format(
          " Entry {} found reached what entry {} found not yet reached: strike out "
          "the one that is wrong.",
          one.reached,
          one.not_reached);
    }
    return text;
  }

  const TouchedPiece& piece_;
  const RecipeBook& book_;
  const Session& session_;
};

}  // namespace

Result<LearnedShop> learn_shop(const RecipeBook& book, const Session& session) {
  const auto pieces = session.store.touched_pieces();
  if (!pieces) {
    return pass_on(pieces.error());
  }
  LearnedShop learned;
  IntervalsByCoat by_coat;
  for (const TouchedPiece& piece : *pieces) {
    if (const auto added = PieceLessons(piece, book, session).add_to(by_coat, learned.left_aside);
        !added) {
      return pass_on(added.error());
    }
  }
  std::vector<CoatInterval> all;
  for (const auto& [coat, intervals] : by_coat) {
    all.insert(all.end(), intervals.begin(), intervals.end());
  }
  learned.paces.paces = paces_from(all);
  for (const auto& [coat, intervals] : by_coat) {
    learned.paces.of_coats[coat] = paces_of_coat(intervals, learned.paces.paces);
  }
  learned.paces.recoat_below_label = session.shop.recoat_below_label.value_or(false);
  return learned;
}

Result<ShopRecipes> open_shop_recipes(const GlobalOptions& global,
                                      const Session& session,
                                      bool as_labelled) {
  auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  ShopRecipes recipes{std::move(*book), {}};
  if (as_labelled) {
    return recipes;
  }
  auto learned = learn_shop(recipes.book, session);
  if (!learned) {
    return pass_on(learned.error());
  }
  for (CoatLeftAside& coat : learned->left_aside) {
    recipes.remarks.push_back(std::move(coat.why));
  }
  if (const std::string words = learned_words(learned->paces); !words.empty()) {
    recipes.remarks.insert(recipes.remarks.begin(), words);
  }
  recipes.book.learn(std::move(learned->paces));
  return recipes;
}

}  // namespace coatwright
