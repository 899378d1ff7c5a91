#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/quantity_text.h"
#include "base/range_text.h"
#include "base/result.h"
#include "recipe/product.h"

/// What the label in the maker's hand says, and the product of the shop's own that follows from it.
namespace coatwright {

/// A figure and how it was typed.
template <class T>
struct Typed {
  T value;
  std::string text;
};

/// A label. What it does not say is not there.
struct LabelFigures {
  std::string name;   ///< Of the new product, as a recipe's.
  std::string title;  ///< Empty: the class's.
  /// The air at which its hours hold; none: the label names none, and the reference is taken.
  std::optional<Typed<TemperatureAndHumidity>> air;
  /// Hours from application. A single figure is both ends: no coat opens before the label says.
  std::map<Stage, Typed<HoursRange>> stages;
  std::optional<Typed<HoursRange>> recoat_by;   ///< After it, abrade first.
  std::optional<Typed<NumbersRange>> coverage;  ///< m2 per litre.
  std::optional<Typed<NumbersRange>> solids;    ///< Percent by volume.
  std::optional<Typed<std::vector<double>>> mix;
  std::optional<Typed<HoursRange>> pot_life;
  std::optional<Typed<HoursRange>> induction;
  std::optional<Typed<TemperatureRange>> temperature;
  std::optional<Typed<RelativeHumidity>> humidity_max;
  bool far_off = false;  ///< Figures far from the class's are meant so.

  /// Whether nothing but a name was given.
  [[nodiscard]] bool empty() const;
};

/// Makes the text of a product's file from its class and a label: all of the class (mechanisms,
/// hazards, cautions, limits) with the label's figures in their places. Hours at another air are
/// brought to the reference by the class's laws, so that the product's stages in the label's air
/// take the label's hours. What closes is never later than the label's hours in any air. Stages
/// that the label leaves out and that would stand in the wrong order are scaled with it
/// (judgement).
/// @param of_class the product that it is made from. @param class_text that product's file.
/// @return a text that parse_product() accepts.
/// Errors: kUsage for a figure that the class has no place for, or out of order; kOutOfRange for
/// one more than a factor 20 from the class's, unless far_off, and for an air below its limits.
[[nodiscard]] Result<std::string> product_text_from_label(const Product& of_class,
                                                          std::string_view class_text,
                                                          const LabelFigures& label);

}  // namespace coatwright
