#include "report/fault_page.h"

#include <set>

#include <fmt/format.h>

#include "report/wrap.h"

namespace coatwright {
namespace {

constexpr std::size_t kIndent = 4;

std::string paragraph(std::string_view head, std::string_view text) {
  return wrap(fmt::format("{}: {}", head, as_sentence(text)), kIndent, kIndent + 2);
}

/// " on the front of the top", or nothing for the whole piece.
std::string place_words(const std::string& part, const std::string& face) {
  const std::string side = face.empty() ? "" : face == "both" ? "both faces" : "the " + face;
  if (side.empty()) {
    return part.empty() ? "" : " on the " + part;
  }
  return " on " + side + (part.empty() ? "" : " of the " + part);
}

std::string coat_words(const TracedWork& coat, const Zone& zone) {
  return fmt::format("entry {}, coat of {}{}, {}",
                     coat.entry,
                     coat.product->title,
                     coat.part.empty() ? "" : " on the " + coat.part,
                     show_full(coat.at, zone));
}

/// How sure a statement is: "trade_finishing_web (read)".
std::string ground_words(const std::string& source, const std::string& how) {
  return source == how ? source : fmt::format("{} ({})", source, how);
}

std::string sources_of(const Suspect& suspect) {
  std::string text = ground_words(suspect.trigger->source, suspect.trigger->how);
  if (!suspect.source.empty() && suspect.source != suspect.trigger->source) {
    text += ", of the limit " + suspect.source;
  }
  return text;
}

/// Shows the suspects one after the other; what a sign does is said with its first.
class SuspectWriter {
 public:
  explicit SuspectWriter(const Zone& zone) : zone_(zone) {}

  std::string text_of(const Suspect& suspect) {
    std::string text = wrap(coat_words(*suspect.coat, zone_),
                            fmt::format("{:>2}. ", ++number_),
                            std::string(kIndent, ' '));
    text += wrap(as_sentence(suspect.found), kIndent, kIndent);
    if (!told_.insert(suspect.trigger).second) {
      return text;
    }
    text += paragraph("How it does that", suspect.trigger->because);
    if (!suspect.to_do.empty()) {
      text += paragraph("Told then", suspect.to_do);
    }
    text += paragraph("Next time", suspect.trigger->prevention);
    return text + paragraph("Source", sources_of(suspect));
  }

 private:
  const Zone& zone_;
  int number_ = 0;
  std::set<const DefectTrigger*> told_;
};

/// The heading above a suspect; nothing where the one before it has the same.
std::string heading_of(const std::vector<Suspect>& suspects, std::size_t index) {
  if (index == 0) {
    return suspects.front().strong ? "Most likely, as the log has it:\n\n"
                                   : "Possible, but the log speaks weakly:\n\n";
  }
  if (index == 1 && suspects[0].strong && suspects[1].strong) {
    return "\nAlso likely:\n\n";
  }
  return suspects[index - 1].strong && !suspects[index].strong
             ? "\nPossible, but the log speaks weakly:\n\n"
             : "\n";
}

std::string suspects_as_text(const FaultAnswer& answer, const Zone& zone) {
  SuspectWriter writer(zone);
  std::string text;
  for (std::size_t i = 0; i < answer.suspects.size(); ++i) {
    text += heading_of(answer.suspects, i) + writer.text_of(answer.suspects[i]);
  }
  return text;
}

/// Why the log shows nothing.
std::string nothing_words(const FaultAnswer& answer) {
  if (answer.coats == 0) {
    return "No coat is logged there: the log can explain nothing.";
  }
  if (answer.befallen == 0) {
    return "Nothing in the log explains it: none of the coats there is of a kind that it usually "
           "befalls. Perhaps it is another defect.";
  }
  return answer.defect->triggers.empty()
             ? "Nothing in the log explains it: what brings it about leaves no trace there."
             : "Nothing in the log explains it.";
}

std::string in_general(const FaultAnswer& answer) {
  const Defect& defect = *answer.defect;
  const bool nothing = answer.suspects.empty();
  std::string text = nothing ? wrap(nothing_words(answer), 0, 0) : "";
  text += "\n";
  text += paragraph(nothing ? "What usually does" : "Usual causes, shown by the log or not",
                    defect.cause);
  text += paragraph("To be expected with", defect.threshold);
  text += paragraph("To mend it", defect.remedy);
  text += paragraph("To keep it away", defect.prevention);
  return text + paragraph("Source", ground_words(defect.source, defect.how));
}

}  // namespace

std::string show_fault(const FaultAnswer& answer, const Zone& zone) {
  const std::string title = wrap(
      fmt::format(
          "{}{}: {}", answer.piece, place_words(answer.part, answer.face), answer.defect->title),
      0,
      0);
  return underlined(std::string_view(title).substr(0, title.size() - 1), '=') + "\n" +
         suspects_as_text(answer, zone) + in_general(answer) + "\n" +
         wrap(
             "The log does not hold all that was done: these are likelihoods, no proof. Try what "
             "mends it on a hidden spot first; the product's label comes first.",
             0,
             0);
}

}  // namespace coatwright
