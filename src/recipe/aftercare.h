#pragma once

#include <string>
#include <string_view>
#include <vector>

/// What the person who receives a piece is told of its finish, from recipes/aftercare.toml;
/// recipes/README.md documents the keys.
namespace coatwright {

/// The parts of the card.
enum class AftercareSection {
  kLightUse,        ///< How to use it while it is young.
  kFullUse,         ///< How to use it from full cure on.
  kKeepOffAtFirst,  ///< What not to put on it until then.
  kKeepOff,         ///< What never to put on it.
  kClean,
  kWater,
  kHeat,
  kMarks,  ///< Cuts and scratches.
  kRenew,
  kRags,  ///< Of whoever renews it with what heats up in a rag.
  kFood,
};

/// "light-use", "keep-off-at-first" ...
[[nodiscard]] std::string_view name_of(AftercareSection section);

struct AftercareItem {
  AftercareSection section = AftercareSection::kLightUse;
  std::vector<std::string> layers;  ///< Those on top of which it is said; empty: of every finish.
  std::string text;                 ///< As printed.
  std::string source;               ///< Key into docs/references.bib, or "judgement".
  std::string how;                  ///< How it is known; of several parts, the weakest.

  /// Whether it is said of a piece with this layer on top.
  [[nodiscard]] bool is_of(std::string_view layer) const;
};

/// In the order of the file.
using Aftercare = std::vector<AftercareItem>;

}  // namespace coatwright
