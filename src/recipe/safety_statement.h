#pragma once

#include <string>
#include <string_view>
#include <vector>

/// What the safety sheet says, as read from recipes/safety.toml; recipes/README.md documents the
/// keys. Which of it a product needs is the safety room's matter.
namespace coatwright {

/// The parts of the sheet, in the order in which it prints them.
enum class SafetySection {
  kRags,  ///< First: it is what burns a shop down at night.
  kFire,
  kAir,
  kLungs,
  kSkin,
  kEyes,
  kDust,
  kNitrocellulose,
  kIsocyanates,
  kCatalysts,
  kStorage,
  kChildren,
  kDisposal,
  kGoneWrong,
  kEveryPage,  ///< At the foot of each page: what comes before the sheet.
};

/// What makes a statement apply to a product.
enum class HazardClass {
  kAll,
  kRagsSelfHeat,
  kUnthinnedOil,  ///< Self-heating, but without a flammable carrier of its own.
  kFlammable,
  kNitrocellulose,
  kSprayedMist,
  kIsocyanates,
  kFormaldehyde,
  kCatalysed,
  kWaterborne,
};

/// "rags", "gone-wrong" ...
[[nodiscard]] std::string_view name_of(SafetySection section);
/// "rags-self-heat", "all" ...
[[nodiscard]] std::string_view name_of(HazardClass hazard);

struct SafetyStatement {
  std::string text;
  SafetySection section = SafetySection::kRags;
  std::vector<HazardClass> applies_to;  ///< To a product of any of these classes.
  std::string source;                   ///< Key into docs/references.bib, or "judgement".
  std::string how;                      ///< How it is known; of several parts, the weakest.
};

/// What is printed big, for the wall.
struct SafetyHeadline {
  std::string title;  ///< A few words.
  std::string text;   ///< A sentence or three.
  std::vector<HazardClass> applies_to;
  std::string source;
  std::string how;
};

/// All that the sheet may say, each kind in the order of the file.
struct SafetyTexts {
  std::vector<SafetyStatement> statements;
  std::vector<SafetyHeadline> headlines;  ///< The gravest first.
};

}  // namespace coatwright
