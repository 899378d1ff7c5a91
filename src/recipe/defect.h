#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "recipe/product.h"

/// Faults of a finish, from recipes/defects.toml.
namespace coatwright {

/// What of a defect's causes the log of a piece can show.
enum class FaultSign {
  kCoatEarly,       ///< The coat beneath was not ready.
  kCoatLate,        ///< The window had closed.
  kNotAbraded,      ///< What lay beneath holds only abraded.
  kForbiddenPair,   ///< The product must not go over what lay there.
  kHumidAir,        ///< Damper than the product takes, while its film was open.
  kNearDewPoint,    ///< Nearer to the dew point than it takes, while its film was open.
  kColdAir,         ///< Colder than it takes, while its film was open.
  kHotAir,          ///< Warmer than it goes on well, while its film was open.
  kWarmingWood,     ///< The wood warmed in the hour after it.
  kThickFilm,       ///< More of it than usual, or more film than the class bears.
  kWipedLate,       ///< Its excess was wiped late, or not as far as the log knows.
  kEarlyUse,        ///< Turned over, worked on or given away before it was hard enough.
  kOilyWood,        ///< On bare wood that holds up what cures by oxygen, or holds a film badly.
  kTanninWood,      ///< Water on bare wood that holds tannin.
  kBlotchingWood,   ///< On bare wood that takes stain unevenly.
  kGrainNotRaised,  ///< The first water on wood whose grain was not raised.
  kSandedTooFine,   ///< On wood sanded finer than the first coat holds on well.
  kWetWood,         ///< The wood was measured wet before.
};

/// "coat-early", "humid-air" ... as the file has it.
[[nodiscard]] std::string_view name_of(FaultSign sign);

/// A sign to look for in a log, and what it has to do with the defect.
struct DefectTrigger {
  FaultSign sign = FaultSign::kCoatEarly;
  std::string because;     ///< How it brings the defect about; part of a sentence.
  std::string prevention;  ///< Part of a sentence.
  std::string source;
  std::string how;  ///< How it is known.
};

struct Defect {
  std::string name;                 ///< "orange-peel"
  std::string title;                ///< "orange peel, a surface of small dimples"
  std::vector<std::string> layers;  ///< Of the products that it befalls; empty: `kinds` says it.
  std::vector<ProductKind> kinds;
  std::string cause;
  std::string threshold;                ///< From where on it is to be expected.
  std::vector<DefectTrigger> triggers;  ///< The most usual first; none: a log cannot show it.
  std::string remedy;
  std::string prevention;
  std::string source;
  std::string how;

  [[nodiscard]] bool befalls(const Product& product) const;
};

/// In the order of the file.
using Defects = std::vector<Defect>;

}  // namespace coatwright
