#pragma once

#include <optional>
#include <vector>

#include "base/units.h"
#include "drying/thinning.h"
#include "recipe/product.h"

/// How thick a finish is when it has dried.
namespace coatwright {

/// Coats of one product that are put on alike.
struct FilmCoats {
  const Product* product = nullptr;
  int coats = 1;
  std::optional<FilmThickness> wet_film;  ///< The step's own; none: the product's reference.
  std::optional<Thinning> thinning;
};

struct DryRange {
  FilmThickness low = FilmThickness::from_micrometres(0);
  FilmThickness high = FilmThickness::from_micrometres(0);
};

/// What the coats of one product leave.
struct DryLayer {
  const Product* product = nullptr;
  int coats = 0;
  FilmThickness wet = FilmThickness::from_micrometres(0);  ///< Of each coat.
  PercentRange solids;                                     ///< As put on.
  DryRange dry;                                            ///< All its coats together.
};

enum class FilmVerdict { kWithin, kMayBeAbove, kAbove };

/// "within", "may be above", "above".
[[nodiscard]] std::string_view name_of(FilmVerdict verdict);

/// A film beside what its class bears.
struct FilmCheck {
  const Product* product = nullptr;  ///< Whose limit.
  bool whole = false;                ///< All layers together, under the top product's limit.
  DryRange dry;
  FilmThickness limit = FilmThickness::from_micrometres(0);
  FilmVerdict verdict = FilmVerdict::kWithin;
};

struct DryFilm {
  std::vector<DryLayer> layers;              ///< Lowest first.
  std::vector<const Product*> without_film;  ///< No wet film or no solids are known of them.
  DryRange total;                            ///< Of the layers that are known.
  std::vector<FilmCheck> checks;
};

/// What stays of a wet film: dry = wet times volume solids. @param solids 0 .. 1.
/// Source: [definition]; [mil_thickness_thread].
[[nodiscard]] FilmThickness dry_from_wet(FilmThickness wet, double solids);

/// Adds up the coats of one face. All layers together stand under the limit of the product on top;
/// each other product's own coats under its own. Abrading takes some off again, which is not
/// counted. Source: derived; whose limit holds for the whole is [judgement].
/// @param coats lowest first.
[[nodiscard]] DryFilm dry_film_of(const std::vector<FilmCoats>& coats);

}  // namespace coatwright
