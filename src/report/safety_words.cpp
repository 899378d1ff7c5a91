#include "report/safety_words.h"

#include <fmt/format.h>

namespace coatwright {

std::string_view label_of(SafetySection section) {
  switch (section) {
    case SafetySection::kRags:
      return "RAGS FIRST";
    case SafetySection::kFire:
      return "FIRE";
    case SafetySection::kAir:
      return "AIR";
    case SafetySection::kLungs:
      return "LUNGS";
    case SafetySection::kSkin:
      return "SKIN";
    case SafetySection::kEyes:
      return "EYES";
    case SafetySection::kDust:
      return "DUST";
    case SafetySection::kNitrocellulose:
      return "RESIDUE";
    case SafetySection::kIsocyanates:
      return "ISOCYANATES";
    case SafetySection::kCatalysts:
      return "CATALYSTS";
    case SafetySection::kStorage:
      return "STORAGE";
    case SafetySection::kChildren:
      return "CHILDREN";
    case SafetySection::kDisposal:
      return "DISPOSAL";
    case SafetySection::kGoneWrong:
      return "GONE WRONG";
    case SafetySection::kEveryPage:
      break;
  }
  return "EVERY PAGE";
}

std::string numbers_text(const SheetStatement& entry, const SafetySheet& sheet) {
  if (entry.products.size() == sheet.products.size()) {
    return "";
  }
  std::string text;
  for (const std::size_t position : entry.products) {
    text += fmt::format("{}{}", text.empty() ? "" : ",", position + 1);
  }
  return fmt::format("{}[{}]", kNumbersBlank, text);
}

std::string products_text(const SafetySheet& sheet) {
  std::string text;
  for (std::size_t i = 0; i < sheet.products.size(); ++i) {
    const std::string number = sheet.products.size() > 1 ? fmt::format("{} ", i + 1) : "";
    text += (text.empty() ? "" : "; ") + number + sheet.products[i]->title;
  }
  return text + ".";
}

std::string subject_of(const SafetyFacts& facts) {
  return facts.day + (facts.day.empty() || facts.pieces.empty() ? "" : ": ") + facts.pieces;
}

}  // namespace coatwright
