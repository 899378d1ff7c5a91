#include "recipe/schedule.h"

namespace coatwright {

std::string_view name_of(ScheduleStepKind kind) {
  switch (kind) {
    case ScheduleStepKind::kSample:
      return "sample";
    case ScheduleStepKind::kSand:
      return "sand";
    case ScheduleStepKind::kRaiseGrain:
      return "raise-grain";
    case ScheduleStepKind::kWash:
      return "wash";
    case ScheduleStepKind::kCoat:
      return "coat";
    case ScheduleStepKind::kAbrade:
      return "abrade";
    case ScheduleStepKind::kRubOut:
      return "rub-out";
  }
  return "";
}

std::string_view name_of(WoodTrait trait) {
  switch (trait) {
    case WoodTrait::kOpenPored:
      return "open-pored";
    case WoodTrait::kClosePored:
      return "close-pored";
    case WoodTrait::kBlotching:
      return "blotching";
    case WoodTrait::kOily:
      return "oily";
    case WoodTrait::kTannin:
      return "tannin";
    case WoodTrait::kSoftwood:
      return "softwood";
  }
  return "";
}

std::string_view name_of(Sheen sheen) {
  switch (sheen) {
    case Sheen::kMatt:
      return "matt";
    case Sheen::kSatin:
      return "satin";
    case Sheen::kSemiGloss:
      return "semi-gloss";
    case Sheen::kGloss:
      return "gloss";
  }
  return "";
}

std::string_view name_of(Skill skill) {
  switch (skill) {
    case Skill::kBeginner:
      return "beginner";
    case Skill::kPractised:
      return "practised";
    case Skill::kExpert:
      return "expert";
  }
  return "";
}

}  // namespace coatwright
