#include "report/handover_sheet.h"

#include <algorithm>
#include <iterator>

#include "report/handover_basis.h"
#include "report/handover_words.h"

namespace coatwright {
namespace {

/// Adds the blocks of a card one after the other.
class CardWriter {
 public:
  CardWriter(const HandoverView& view, Sheet& sheet) : view_(view), sheet_(sheet) {}

  void write() {
    add_planned();
    add_finishes();
    add_use();
    add_items("Until full use, keep off it", {AftercareSection::kKeepOffAtFirst});
    add_items("Always keep off it", {AftercareSection::kKeepOff});
    add_items("Cleaning", {AftercareSection::kClean});
    add_items("Water, heat, scratches",
              {AftercareSection::kWater, AftercareSection::kHeat, AftercareSection::kMarks});
    add_items("When it looks worn", {AftercareSection::kRenew});
    add_rags();
  }

 private:
  void add(SheetBlock block) { sheet_.blocks.push_back(std::move(block)); }

  void add_planned() {
    if (view_.card.planned()) {
      add(SheetBox{"Planned, not done",
                   "The last coats are not on yet: these days come from the plan. Ask for the card "
                   "again when the piece is finished.",
                   SheetSize::kBody});
    }
  }

  void add_finishes() {
    add(SheetHeading{"Finished with"});
    for (const CardFinish& finish : view_.card.finishes) {
      add(SheetText{finish_words(finish, view_.zone)});
    }
  }

  void add_use() {
    add(SheetHeading{"Using it"});
    add_days(AftercareSection::kLightUse, &CardFinish::light_use);
    add_days(AftercareSection::kFullUse, &CardFinish::full_use);
    add_list({AftercareSection::kFood});
  }

  /// The day of each finish, and what holds from then on.
  void add_days(AftercareSection section, CardStage CardFinish::*stage) {
    for (const CardFinish& finish : view_.card.finishes) {
      add(SheetText{
          with_parts(finish, day_words(section, finish.*stage, view_)), SheetSize::kBody, true});
    }
    add_list({section});
  }

  void add_items(const std::string& heading, const std::vector<AftercareSection>& sections) {
    if (!words_in(sections).empty()) {
      add(SheetHeading{heading});
      add_list(sections);
    }
  }

  void add_list(const std::vector<AftercareSection>& sections) {
    if (auto words = words_in(sections); !words.empty()) {
      add(SheetList{std::move(words)});
    }
  }

  [[nodiscard]] std::vector<std::string> words_in(
      const std::vector<AftercareSection>& sections) const {
    std::vector<std::string> words;
    for (const AftercareSection section : sections) {
      for (const CardItem& item : items_of(view_.card, section)) {
        words.push_back(item_words(item));
      }
    }
    return words;
  }

  void add_rags() {
    for (const CardItem& item : items_of(view_.card, AftercareSection::kRags)) {
      add(SheetBox{"Oily cloths can catch fire", item_words(item), SheetSize::kBody});
    }
  }

  const HandoverView& view_;
  Sheet& sheet_;
};

}  // namespace

Sheet handover_sheet(const HandoverView& view, bool explain) {
  Sheet sheet;
  sheet.title = "Care card";
  sheet.subtitle = view.card.piece;
  sheet.subject = "Care and cure of a finish";
  sheet.made_at = view.card.made_at;
  sheet.foot = foot_words(view);
  CardWriter(view, sheet).write();
  if (explain) {
    Sheet basis = handover_basis(view);
    sheet.blocks.push_back(SheetPageBreak{});
    sheet.blocks.push_back(SheetText{basis.title, SheetSize::kLarge, true});
    std::move(basis.blocks.begin(), basis.blocks.end(), std::back_inserter(sheet.blocks));
  }
  return sheet;
}

}  // namespace coatwright
