#include "quantity/quantity.h"

namespace coatwright {

Quantity quantity_from_area(const Product& product, Area area, int coats) {
  const double spread = product.film.spread_low_m2_per_l;
  return {Volume::from_litres(area.square_metres() * coats / spread), spread};
}

double spread_from_wet_film_m2_per_l(FilmThickness wet) {
  return 1000.0 / wet.micrometres();
}

}  // namespace coatwright
