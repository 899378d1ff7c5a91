#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/units.h"
#include "drying/stage.h"
#include "recipe/substance.h"

/// What a finish material is, as read from recipes/products/NAME.toml; recipes/README.md documents
/// the keys. Every figure carries the key of its source in docs/references.bib.
namespace coatwright {

/// A figure and where it comes from.
template <class T>
struct Sourced {
  T value;
  std::string source;  ///< Key into docs/references.bib, or "judgement".
  std::string note;    ///< May be empty.
};

enum class ProductKind { kStain, kFiller, kSealer, kClearFilm, kEnamel, kOil, kWax };

/// 0 to 100 each.
struct PercentRange {
  double low = 0;
  double high = 0;
};

/// How a product is put on.
enum class Method { kWipe, kBrush, kPad, kSpray };

/// "wipe", "brush", "pad", "spray".
[[nodiscard]] std::string_view name_of(Method method);
[[nodiscard]] std::string_view name_of(ProductKind kind);

/// What must be done before the next coat inside a recoat interval.
enum class RecoatCondition { kNone, kAbrade, kNever };

/// A stretch of time after a coat in which the next may go on, under a condition.
struct RecoatInterval {
  RecoatCondition condition = RecoatCondition::kNone;
  StageTiming opens;                  ///< From here (at the chosen confidence) ...
  std::optional<StageTiming> closes;  ///< ... to here; none: no closing.
  std::string reason;
  std::string source;
};

/// Excess to be wiped off: not before, and not after. Label minutes, without a spread.
struct WipeOff {
  Hours opens;
  Hours closes;
  RateLaw closing_law;  ///< Warm air closes it sooner; cold air never later than the label.
  std::string source;
};

struct DryingStage {
  Stage stage;
  StageTiming timing;
  std::string source;
  std::string note;
};

/// The air in which a product may be put on, and until its critical stage.
struct Limits {
  std::optional<Sourced<Temperature>> temperature_min;
  std::optional<Sourced<Temperature>> temperature_max;
  std::optional<Sourced<RelativeHumidity>> humidity_min;
  std::optional<Sourced<RelativeHumidity>> humidity_max;
  std::optional<Sourced<TemperatureDifference>> dew_point_spread_min;
  /// Below this spread a lacquer or shellac may blush: a caution, not a bar.
  std::optional<Sourced<TemperatureDifference>> blush_spread;
  std::optional<Sourced<Temperature>> film_formation_min;
  Stage critical_stage = Stage::kDustFree;
};

/// Film data.
struct Film {
  std::optional<Sourced<FilmThickness>> reference_wet;  ///< For which the stages hold.
  double spread_low_m2_per_l = 0;
  double spread_high_m2_per_l = 0;
  std::string spread_source;
  std::optional<Sourced<PercentRange>> solids;  ///< Volume solids as supplied.
  /// All coats of the class together, dry; above it the film may crack or stay soft.
  std::optional<Sourced<FilmThickness>> total_dry_max;
};

/// What must be stirred together before use.
struct Mix {
  struct Part {
    std::string name;  ///< "base", "hardener"
    double parts = 0;
  };

  std::vector<Part> parts;  ///< At least two.
  bool by_mass = false;     ///< Otherwise by volume.
  std::string parts_source;
  /// Until it must be used up; warm air shortens it. Not later than the label in cold air.
  std::optional<DurationRange> pot_life;
  RateLaw pot_life_law;
  std::string pot_life_source;
  Hours induction = Hours::from_hours(0);  ///< Stands so long before it is used.
  std::string induction_source;            ///< Empty where there is none.
};

/// When a preparation is needed.
enum class PreparationCase {
  kAlways,
  kFlakes,   ///< Where the maker dissolves it rather than buys it ready.
  kColdCan,  ///< Where the can comes from a colder place than the shop.
};

/// "always", "flakes", "cold-can".
[[nodiscard]] std::string_view name_of(PreparationCase when);

/// What must be begun a good while before the first coat.
struct Preparation {
  PreparationCase when = PreparationCase::kAlways;
  std::string text;    ///< An order to the maker, as printed.
  double minutes = 0;  ///< Of work.
  DurationRange lead;  ///< From its end to the first coat.
  std::string source;
};

/// How long a can keeps. Months of 30 days.
struct Storage {
  std::optional<Sourced<double>> shelf_months;   ///< Unopened.
  std::optional<Sourced<double>> opened_months;  ///< After it was opened.
};

/// How many coats are usual.
struct UsualCoats {
  int low = 1;
  int high = 1;
  std::string source;
};

/// What can hurt; the safety room turns it into a sheet.
struct Hazards {
  bool rags_self_heat =
      false;               ///< Contains drying oil: rags, pads and dust may ignite by themselves.
  bool flammable = false;  ///< Vapour ignites: flames, pilot lights, switches, motors.
  bool nitrocellulose = false;        ///< Overspray and residue burn violently.
  bool sprayed_mist = false;          ///< Put on with a gun: mist and vapour in the breathing zone.
  bool isocyanates = false;           ///< Its hardener sensitises lungs and skin for good.
  bool formaldehyde = false;          ///< Gives off formaldehyde while it cures.
  bool catalysed = false;             ///< Two parts: an acid, a peroxide or another hardener.
  std::vector<std::string> cautions;  ///< A sentence each, for the calendar.
  std::string source;
};

struct LearnedPaces;

struct Product {
  std::string name;       ///< "oil-wiping-stain"
  std::string title;      ///< "Oil wiping stain"
  std::string layer;      ///< By which the compatibility and sanding tables know it.
  std::string made_from;  ///< A shop's own: the class that it was made from; empty: a class itself.
  ProductKind kind = ProductKind::kClearFilm;
  std::string carrier;  ///< "mineral spirits", "water" ...
  std::vector<Method> methods;
  bool oxidises = false;  ///< Cures by taking up oxygen; inhibited by oily woods.
  bool raises_grain = false;
  std::map<Stage, DryingStage> stages;
  std::vector<RecoatInterval> recoat;  ///< This product over itself.
  std::optional<WipeOff> wipe_off;
  std::string abrade_grit;  ///< Between coats, "P320".
  Limits limits;
  Film film;
  std::optional<Mix> mix;
  std::vector<Preparation> preparations;
  Storage storage;
  std::optional<UsualCoats> usual_coats;
  Hazards hazards;
  std::optional<Vapour> vapour;  ///< None: nothing evaporates.
  /// Whose touch tests its times go by; null: they are as labelled.
  std::shared_ptr<const LearnedPaces> paced_by = nullptr;

  [[nodiscard]] const DryingStage* stage(Stage which) const;
  /// A wait of other hours by the law that ends its "recoat" stage, or its latest before it.
  [[nodiscard]] StageTiming wait_of(const DurationRange& whole) const;
};

}  // namespace coatwright
