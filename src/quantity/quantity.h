#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/units.h"
#include "drying/thinning.h"
#include "quantity/batches.h"
#include "recipe/application.h"
#include "recipe/product.h"

/// How much of each product a job takes. Pure.
namespace coatwright {

/// One coat on a piece, on all the faces that it goes on.
struct CoatUse {
  std::string piece;
  const Product* product = nullptr;
  const Tool* tool = nullptr;
  bool small_parts = false;               ///< Frames, spindles: more passes a gun's mist by.
  std::optional<FilmThickness> wet_film;  ///< The step's own; none: the product's reference.
  std::optional<Thinning> thinning;
  Area area = Area::from_square_metres(0);  ///< Of all the faces together, at least 0.
  std::vector<CoatSession> sessions;        ///< Their areas add up to it.
};

/// What a litre covers, and how that comes about.
struct CoverRate {
  double m2_per_l = 0;                ///< With the tool's losses, without waste.
  std::optional<FilmThickness> film;  ///< Reckoned from this wet film ...
  double spread_m2_per_l = 0;         ///< ... or, without one, from this spreading rate.
  /// 0 .. 1 of what is used stays on the wood; none: counted in the spreading rate.
  std::optional<double> on_the_wood;

  bool operator==(const CoverRate&) const = default;
};

/// What a litre of a product covers in a coat:
///     1000 e / film                      where the step states its wet film, or the product has a
///                                        reference film and is not wiped;
///     spreading rate, low end (times e)  otherwise, so that it suffices.
/// What is wiped off again is no film on the wood, so that a wiped coat goes by the spreading rate.
/// That counts what a hand tool loses; what a gun loses comes on top, by e.
/// Source: 1 L over 1000 m2 is 1 um, [definition]; [paint_arithmetic]; which of the two holds is
/// [judgement].
[[nodiscard]] CoverRate cover_rate(const CoatUse& coat);

/// Coats of one product on one piece that are reckoned alike.
struct CoatGroup {
  std::string piece;
  const Tool* tool = nullptr;
  int coats = 0;
  Area area = Area::from_square_metres(0);  ///< Of each coat.
  CoverRate rate;
  Volume used = Volume::from_litres(0);  ///< Without waste.
};

/// A share of a mix.
struct MixShare {
  std::string name;  ///< "base", "hardener"
  double parts = 0;
  double share = 0;  ///< 0 .. 1 of the whole, by what the parts are measured by.
  Volume amount = Volume::from_litres(0);  ///< By mass: as if all parts were equally heavy.
};

/// All of one product that a job takes.
struct ProductAmount {
  const Product* product = nullptr;
  std::vector<CoatGroup> groups;
  Volume used = Volume::from_litres(0);    ///< The groups together.
  Volume amount = Volume::from_litres(0);  ///< With the waste: what to have at hand.
  double waste_percent = 0;                ///< Of what is used.
  Volume supplied =
      Volume::from_litres(0);               ///< Of the amount, what comes out of the product's can.
  Volume thinner = Volume::from_litres(0);  ///< The rest.
  std::string thinner_name;                 ///< Empty: not thinned.
  std::vector<MixShare> mix;                ///< Of `supplied`; empty: one part.
  Batches batches;
};

/// Adds up coats to products, in the order in which these come first.
/// @param air of the pot lives.
/// Source: V = sum of area / rate, [definition]; the waste on top is the application's.
[[nodiscard]] std::vector<ProductAmount> amounts_of(const std::vector<CoatUse>& coats,
                                                    const Application& application,
                                                    const BatchAir& air);

/// Spreading rate from film: @param wet film thickness. @return m2 per litre without loss.
/// Source: 1 L over 1000 m2 is 1 um. Check: [paint_arithmetic] 1604 ft2 per gallon and mil.
[[nodiscard]] double spread_from_wet_film_m2_per_l(FilmThickness wet);

/// Thinner over product as supplied, by volume, where the thinner is a share s of the solvent:
///     t = s (1 - VS) / (1 - s).
/// @param solids VS, 0 .. 1, all that is not solid being solvent. @param share s, 0 .. 0.5.
/// Source: [definition].
[[nodiscard]] double thinner_ratio(double solids, double share);

/// Volume solids after thinning, VS / (1 + t). @param solids as supplied, 0 .. 1.
/// @param ratio thinner over product by volume, t, at least 0. Source: [definition].
[[nodiscard]] double thinned_solids(double solids, double ratio);

}  // namespace coatwright
