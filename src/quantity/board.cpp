#include "quantity/board.h"

namespace coatwright {

Area board_area(const Dimensions& size, int faces, bool edges) {
  const double length = size.length.metres();
  const double width = size.width.metres();
  const double around = edges ? 2.0 * (length + width) * size.thickness.metres() : 0.0;
  return Area::from_square_metres(faces * length * width + around);
}

Area area_of(const std::vector<Part>& parts) {
  double square_metres = 0.0;
  for (const Part& part : parts) {
    square_metres += part.count * board_area(part.size, part.faces, part.edges).square_metres();
  }
  return Area::from_square_metres(square_metres);
}

}  // namespace coatwright
