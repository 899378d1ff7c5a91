// The safety sheet on paper; as text it is in safety_sheet.cpp.
#include <utility>

#include "report/safety_sheet.h"
#include "report/safety_words.h"

namespace coatwright {
namespace {

void add_row(std::string label, const std::vector<std::string>& items, SheetTable& table) {
  std::string text;
  for (const std::string& item : items) {
    text += (text.empty() ? "- " : "\n- ") + item;
  }
  if (!items.empty()) {
    table.rows.push_back({std::move(label), std::move(text)});
  }
}

/// Whether the figures fill the front.
bool is_full(const SafetyFacts& facts) {
  constexpr std::size_t kMost = 4;
  return facts.figures.size() > kMost;
}

/// What is not read from afar, each part of it named once.
SheetTable the_rest(const SafetySheet& sheet, const SafetyFacts& facts) {
  SheetTable table;
  table.widths = {0.1, 0.9};
  table.ruled = false;
  table.size = SheetSize::kSmall;
  for (const SheetSection& section : sheet.sections) {
    if (section.section == SafetySection::kEveryPage) {
      continue;  // the foot
    }
    std::vector<std::string> items;
    for (const SheetStatement& entry : section.statements) {
      items.push_back(entry.statement->text + numbers_text(entry, sheet));
    }
    add_row(std::string(label_of(section.section)), items, table);
  }
  if (is_full(facts)) {
    add_row("STORED", facts.stored, table);
    add_row("LABELS", facts.labels, table);
  }
  return table;
}

std::string foot_of(const SafetySheet& sheet) {
  std::string text;
  for (const SheetSection& section : sheet.sections) {
    if (section.section == SafetySection::kEveryPage) {
      for (const SheetStatement& entry : section.statements) {
        text += (text.empty() ? "" : " ") + entry.statement->text;
      }
    }
  }
  return text;
}

void add_list(const std::string& heading, const std::vector<std::string>& items, Sheet& page) {
  if (!items.empty()) {
    page.blocks.push_back(SheetHeading{heading});
    page.blocks.push_back(SheetList{items, false, SheetSize::kBody});
  }
}

}  // namespace

Sheet safety_as_sheet(const SafetySheet& sheet, const SafetyFacts& facts, Time made_at) {
  Sheet page;
  page.title = "SAFETY FIRST";
  page.subtitle = subject_of(facts);
  page.subject = "Safety sheet" + (page.subtitle.empty() ? "" : ", " + page.subtitle);
  page.made_at = made_at;
  page.foot = foot_of(sheet);
  for (const SafetyHeadline* headline : sheet.headlines) {
    page.blocks.push_back(SheetBox{headline->title, headline->text, SheetSize::kBig});
  }
  page.blocks.push_back(
      SheetText{facts.emergency.empty()
                    ? "FIRE OR INJURED: get out, call from outside. Numbers: __________________"
                    : "FIRE OR INJURED: get out, call from outside: " + facts.emergency,
                SheetSize::kLarge,
                true});
  page.blocks.push_back(SheetText{"For: " + products_text(sheet), SheetSize::kBody, false});
  add_list("WHAT THIS DOES TO THE AIR", facts.figures, page);
  if (!is_full(facts)) {
    add_list("WHAT WILL STAND THERE", facts.stored, page);
    add_list("FIRE CATEGORIES", facts.labels, page);
  }
  page.blocks.push_back(SheetPageBreak{});
  page.blocks.push_back(
      SheetHeading{"FOR THE BACK" + (page.subtitle.empty() ? "" : ": " + page.subtitle)});
  page.blocks.push_back(the_rest(sheet, facts));
  return page;
}

}  // namespace coatwright
