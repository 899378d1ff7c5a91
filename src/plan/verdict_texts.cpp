#include "plan/verdict_texts.h"

#include <fmt/format.h>

namespace coatwright {
namespace {

/// How a maker finds out whether a coat is ready for the next.
std::string readiness_test(const Product& under) {
  if (under.kind == ProductKind::kStain || under.kind == ProductKind::kOil) {
    return "rub a white cloth over the sample board or a hidden spot: no colour or oil comes off";
  }
  return "press a thumb on the sample board or a hidden spot: no print; fine paper makes powder "
         "and does not clog";
}

/// The faults by what lies beneath: stains bleed and lift, oils wrinkle, water clouds, spirits stay
/// trapped. Source: trade pages read, [trade_finishing_web].
std::string early_faults(const Product& under, const Product& over) {
  if (under.kind == ProductKind::kStain) {
    return "the coat can lift the colour, bleed or turn hazy, and may not hold";
  }
  if (under.oxidises) {
    return over.carrier == "water"
               ? "the coat can wrinkle, crawl or peel, and stay tacky for weeks"
               : "the coat beneath can swell, wrinkle or lift, and both stay soft for weeks";
  }
  if (under.carrier == "water") {
    return "water shut in beneath: a cloudy, soft film that may crack or not hold";
  }
  return "solvent shut in beneath: bubbles, a film that stays soft and takes prints, later sinking "
         "and cracks";
}

}  // namespace

Advice advice_when_early(const Product& under, const Product& over) {
  return {early_faults(under, over),
          "wait, and before it " + readiness_test(under),
          "nothing more over it; keep it warm and aired, give it at least twice the usual wait, "
          "and look after an hour, where it is thickest, for wrinkles and haze. Lifts or stays "
          "soft: let it harden, take it off to a sound layer, begin again there"};
}

Advice advice_when_late(const Product& under, std::string_view abrade_grit) {
  Advice advice;
  advice.may_happen =
      "the coats do not bond by themselves any more: the new one can chip or peel in sheets";
  advice.first =
      abrade_grit.empty()
          ? fmt::format("see what {}'s data sheet asks for over a coat of this age", under.title)
          : fmt::format("abrade with {} until dull all over, and take the dust off", abrade_grit);
  // The tape test: ASTM D3359, by name only.
  advice.then =
      "when it is hard, try its hold where nobody sees it (cross-cut and tape, ASTM D3359) before "
      "more goes over it; if it comes off, abrade back and lay it again";
  return advice;
}

Advice advice_when_unabraded(const Product& under) {
  Advice advice = advice_when_late(under, under.abrade_grit);
  advice.first += "; if it was abraded, log that";
  return advice;
}

Advice advice_when_forbidden(const std::string& barrier) {
  const std::string first = barrier.empty()
                                ? "choose another product, or take the coat beneath off"
                                : fmt::format("lay {} between, or choose another product", barrier);
  return {"it may not hold, not dry or lift what is beneath, now or months later",
          first + ", and try it on the sample board",
          "lay no more, and expect to strip it"};
}

Advice advice_outside(std::string_view code) {
  if (code == "temperature-min") {
    return {"it flows badly and dries slowly or not right: soft, tacky for days, poor hold",
            "warm room, piece and can and keep them so until it is dust-free; no open flame and no "
            "heater that is not rated for it while there is vapour",
            "bring the warmth up slowly, and count the wait from when it is warm"};
  }
  if (code == "film-formation") {
    return {"the film does not knit: white, cracked or powdery; warmth later does not mend it",
            "warm room, piece and can",
            "scratch it with a nail when it is dry; what powders or cracks must come off"};
  }
  if (code == "humidity-max") {
    return {"blush or haze in lacquer and shellac; water and oil finishes dry slowly and stay soft",
            "wait for drier air, or dry it",
            "let it dry; a blush often goes with a mist of retarder on a drier day, or by "
            "abrading; try that on a hidden spot"};
  }
  return {"water condenses on the surface: haze, spots, poor hold",
          "wait until piece and air are of one temperature, or dry the air",
          "let it dry, look for haze in low light, and try its hold before more goes over it"};
}

}  // namespace coatwright
