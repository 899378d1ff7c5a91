#include "quantity/dry_film.h"

#include <algorithm>

#include "quantity/quantity.h"

namespace coatwright {
namespace {

DryRange sum_of(const DryRange& a, const DryRange& b) {
  return {FilmThickness::from_micrometres(a.low.micrometres() + b.low.micrometres()),
          FilmThickness::from_micrometres(a.high.micrometres() + b.high.micrometres())};
}

double solids_as_put_on(double percent, const std::optional<Thinning>& thinning) {
  const double solids = percent / 100.0;
  return thinning ? thinned_solids(solids, thinner_ratio(solids, thinning->share)) : solids;
}

std::optional<DryLayer> layer_of(const FilmCoats& coats) {
  const Film& film = coats.product->film;
  if ((!coats.wet_film && !film.reference_wet) || !film.solids) {
    return std::nullopt;
  }
  DryLayer layer;
  layer.product = coats.product;
  layer.coats = coats.coats;
  layer.wet = coats.wet_film ? *coats.wet_film : film.reference_wet->value;
  const double low = solids_as_put_on(film.solids->value.low, coats.thinning);
  const double high = solids_as_put_on(film.solids->value.high, coats.thinning);
  layer.solids = {low * 100.0, high * 100.0};
  const auto all = FilmThickness::from_micrometres(layer.wet.micrometres() * coats.coats);
  layer.dry = {dry_from_wet(all, low), dry_from_wet(all, high)};
  return layer;
}

FilmVerdict verdict_on(const DryRange& dry, FilmThickness limit) {
  if (dry.low > limit) {
    return FilmVerdict::kAbove;
  }
  return dry.high > limit ? FilmVerdict::kMayBeAbove : FilmVerdict::kWithin;
}

/// The film of one product alone.
DryRange own_film(const DryFilm& film, const Product* product) {
  DryRange sum;
  for (const DryLayer& layer : film.layers) {
    sum = layer.product == product ? sum_of(sum, layer.dry) : sum;
  }
  return sum;
}

void add_check(const Product* product, bool whole, const DryRange& dry, DryFilm& film) {
  if (const auto& limit = product->film.total_dry_max) {
    film.checks.push_back({product, whole, dry, limit->value, verdict_on(dry, limit->value)});
  }
}

}  // namespace

std::string_view name_of(FilmVerdict verdict) {
  switch (verdict) {
    case FilmVerdict::kWithin:
      return "within";
    case FilmVerdict::kMayBeAbove:
      return "may be above";
    case FilmVerdict::kAbove:
      break;
  }
  return "above";
}

FilmThickness dry_from_wet(FilmThickness wet, double solids) {
  return FilmThickness::from_micrometres(wet.micrometres() * solids);
}

DryFilm dry_film_of(const std::vector<FilmCoats>& coats) {
  DryFilm film;
  for (const FilmCoats& each : coats) {
    if (const auto layer = layer_of(each)) {
      film.layers.push_back(*layer);
      film.total = sum_of(film.total, layer->dry);
    } else {
      film.without_film.push_back(each.product);
    }
  }
  if (film.layers.empty()) {
    return film;
  }
  const Product* top = film.layers.back().product;
  std::vector<const Product*> checked = {top};
  for (const DryLayer& layer : film.layers) {
    if (std::find(checked.begin(), checked.end(), layer.product) == checked.end()) {
      checked.push_back(layer.product);
      add_check(layer.product, false, own_film(film, layer.product), film);
    }
  }
  add_check(top, true, film.total, film);
  return film;
}

}  // namespace coatwright
