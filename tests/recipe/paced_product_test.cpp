#include "recipe/paced_product.h"

#include <catch2/catch.hpp>

#include "recipe/recipe_book.h"

using namespace coatwright;

namespace {

/// A shop whose next coats lie between two deviates of every range.
LearnedPaces learned(double low, double high, bool recoat_below_label = false) {
  LearnedPaces result;
  for (const Mechanism mechanism : {Mechanism::kOxidation,
                                    Mechanism::kEvaporation,
                                    Mechanism::kCoalescence,
                                    Mechanism::kWaterLoss,
                                    Mechanism::kAcidCure}) {
    result.paces.set(mechanism, {low, high, 0.3, 0, 0, 0, 5});
  }
  result.recoat_below_label = recoat_below_label;
  return result;
}

const Product& product(const RecipeBook& book, const std::string& name) {
  const auto found = book.product(name);
  REQUIRE(found.has_value());
  return **found;
}

bool is_within(const DurationRange& range, const DurationRange& least) {
  return range.low() >= least.low() && range.high() >= least.high();
}

}  // namespace

TEST_CASE("A slow shop's stages lie where its deviates say", "[recipe]") {
  const RecipeBook book;
  const Product& varnish = product(book, "oil-modified-varnish");
  const Product slow = paced(varnish, learned(0.5, 2.0));
  const DurationRange sandable = slow.stage(Stage::kSandable)->timing.whole();
  const DurationRange labelled = varnish.stage(Stage::kSandable)->timing.whole();
  CHECK(sandable.low().hours() == Approx(labelled.at_deviate(0.5).hours()));
  CHECK(sandable.high().hours() == Approx(labelled.at_deviate(2.0).hours()));
  CHECK(slow.stage(Stage::kSandable)->timing.shop_share() == 0.3);
  CHECK(*slow.stage(Stage::kSandable)->timing.phases.front().labelled == labelled);
}

TEST_CASE("What is for safety, and the label's order, stay on the label's side", "[recipe]") {
  const RecipeBook book;
  for (const double middle : {-2.5, 0.0, 2.5}) {
    const LearnedPaces paces = learned(middle - 0.5, middle + 0.5);
    for (const std::string& name : book.product_names()) {
      INFO(name << " at " << middle);
      const Product& labelled = product(book, name);
      const Product own = paced(labelled, paces);
      for (const Stage stage : {Stage::kLightUse, Stage::kFullCure}) {
        if (const DryingStage* one = own.stage(stage)) {
          CHECK(is_within(one->timing.whole(), labelled.stage(stage)->timing.whole()));
        }
      }
      REQUIRE(own.recoat.size() == labelled.recoat.size());
      for (std::size_t i = 0; i < own.recoat.size(); ++i) {
        const RecoatInterval& was = labelled.recoat[i];
        const RecoatInterval& is = own.recoat[i];
        if (was.condition != RecoatCondition::kNever) {
          CHECK(is.opens.whole().low() >= was.opens.whole().low());
        }
        if (was.closes && was.condition != RecoatCondition::kNever) {
          CHECK(is_within(was.closes->whole(), is.closes->whole()));
        }
      }
      CHECK(own.wipe_off.has_value() == labelled.wipe_off.has_value());
      if (own.mix) {
        CHECK(own.mix->pot_life == labelled.mix->pot_life);
      }
    }
  }
}

TEST_CASE("A fast shop recoats before the label only where it has said so", "[recipe]") {
  const RecipeBook book;
  const Product& varnish = product(book, "oil-modified-varnish");
  const auto recoat = [&](bool below) {
    return paced(varnish, learned(-3.0, -2.0, below)).stage(Stage::kRecoat)->timing.whole();
  };
  const Hours least = varnish.stage(Stage::kRecoat)->timing.whole().low();
  CHECK(recoat(false).low() == least);
  CHECK(recoat(false).high() == least);
  CHECK(recoat(true).high() < least);
}

TEST_CASE("A product at a shop's pace is known as it is labelled", "[recipe]") {
  const RecipeBook book;
  const Product& varnish = product(book, "oil-modified-varnish");
  const Product back = as_labelled(paced(varnish, learned(0.5, 2.0)));
  for (const auto& [stage, drying] : varnish.stages) {
    CHECK(back.stage(stage)->timing.whole() == drying.timing.whole());
    CHECK_FALSE(back.stage(stage)->timing.phases.back().labelled);
  }
}

TEST_CASE("A book that has learned gives products and pairs at the shop's pace", "[recipe]") {
  RecipeBook book;
  const RecipeBook plain;
  book.learn(learned(1.0, 2.0));
  const Product& slow = product(book, "oil-wiping-stain");
  const Product& labelled = product(plain, "oil-wiping-stain");
  const auto pair = book.pair(slow, product(book, "oil-modified-varnish"));
  const auto usual = plain.pair(labelled, product(plain, "oil-modified-varnish"));
  REQUIRE(pair.has_value());
  REQUIRE(usual.has_value());
  const StageTiming& opens = pair->intervals.front().opens;
  const StageTiming& usual_opens = usual->intervals.front().opens;
  REQUIRE(opens.phases.back().labelled.has_value());
  CHECK(*opens.phases.back().labelled == usual_opens.phases.back().duration);
  CHECK(opens.whole().high() > usual_opens.whole().high());
  CHECK((*book.product_as_labelled("oil-wiping-stain"))->stage(Stage::kRecoat)->timing.whole() ==
        labelled.stage(Stage::kRecoat)->timing.whole());
}
