#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/units.h"
#include "base/vapour_units.h"

/// What evaporates from finishes, as read from recipes/substances.toml; recipes/README.md documents
/// the keys.
namespace coatwright {

/// A figure of a substance, with its source and how it is known.
template <class T>
struct Known {
  T value;
  std::string source;  ///< Key into docs/references.bib.
  std::string how;     ///< "read", "derived", "from memory" ...
  /// What the figure does not say, such as the temperature that it is for; may be empty.
  std::string note = "";
};

/// Over which time a limit of exposure is meant.
enum class Averaging {
  kShift,      ///< Mean of a shift of 8 to 10 hours.
  kShortTerm,  ///< Mean of 10 or 15 minutes.
  kCeiling,    ///< At no time.
};

/// "shift", "short-term", "ceiling".
[[nodiscard]] std::string_view name_of(Averaging averaging);

/// A published limit of what may be breathed.
struct ExposureLimit {
  std::string name;  ///< "OSHA PEL", "NIOSH REL"
  Averaging averaging = Averaging::kShift;
  Known<VapourFraction> at_most;
};

struct Substance {
  std::string name;  ///< "n-butyl acetate"
  std::string cas;   ///< Registry number; a mixture has that of its class.
  MolarMass molar_mass = MolarMass::from_g_per_mol(0);
  std::string molar_mass_source;
  std::string molar_mass_how;
  std::optional<Known<Density>> density;      ///< Of the liquid, 20 to 25 C; none: it is a gas.
  std::optional<Known<Temperature>> flash;    ///< Closed cup, the lowest that is published.
  std::optional<Known<Temperature>> boiling;  ///< At 1 atm; of a mixture, where it begins to boil.
  /// Published lower explosive limits; which is reckoned with is the safety room's matter.
  std::vector<Known<VapourFraction>> lower_explosive_limits;
  std::vector<ExposureLimit> limits;
  std::optional<Known<VapourFraction>> idlh;  ///< Immediately dangerous to life or health.
  /// No figure of it clears a room: a sensitiser or carcinogen, such as formaldehyde.
  bool never_cleared = false;
  bool organic = true;  ///< Counts among the volatile organic compounds; ammonia does not.
  std::string note;     ///< May be empty.

  /// The lowest of the published ones. @return none where none is known or it does not burn.
  [[nodiscard]] const Known<VapourFraction>* lowest_explosive_limit() const;
  /// The lowest published limit of any kind: a ceiling below a limit for a shift, as n-butanol has
  /// it, bounds the shift too. Of equal ones that for a shift.
  [[nodiscard]] const ExposureLimit* strictest_limit() const;
};

/// By name.
using Substances = std::map<std::string, Substance>;

/// A substance in what evaporates from a product.
struct SolventShare {
  /// Of the recipe book that the product is from; null where a file was read without a book.
  const Substance* substance = nullptr;
  std::string name;
  double share = 0;  ///< Of the volatile part by volume, above 0 and up to 1.
};

/// What leaves a product as it dries.
struct Vapour {
  std::optional<Known<Temperature>>
      flash;  ///< Of the product, closed cup: the low end of its class.
  std::optional<Known<Temperature>> boiling;  ///< Where it begins to boil.
  double volatile_share = 0;  ///< Of the product as supplied, by volume, 0 .. 1: the high end.
  std::vector<SolventShare> solvents;  ///< What is left to 1 is water.
  std::string source;
  std::string how;
  std::string note;  ///< May be empty.

  /// Grams of volatile organic compounds in a litre of the product as supplied: what is emitted,
  /// not the figure of a rule that leaves water and exempt solvents out of the litre.
  [[nodiscard]] double voc_g_per_l() const;
};

}  // namespace coatwright
