// A unit that writes letters, and its templates.

#pragma once

#include <string>

#include "letters/fields.h"
#include "letters/template.h"
#include "support/places.h"
#include "support/temporary_ledger.h"

namespace support {

inline const char* const unit_file = R"({"name": "Endoscopy Unit, Example Hospital",
  "address": ["1 Example Street", "Exampletown EX1 1EX"], "telephone": "01632 960000",
  "hours": "Monday to Friday, 9 am to 5 pm", "urgent": "ring 999"})";

inline cli::UnitDetails a_unit() {
  return {"Endoscopy Unit, Example Hospital",
          {"1 Example Street", "Exampletown EX1 1EX"},
          "01632 960000",
          "Monday to Friday, 9 am to 5 pm",
          "",
          "ring 999"};
}

inline cli::LetterTemplates shipped_templates(const std::string& format) {
  return value_of(cli::load_templates({{}, source("cli/letters")}, format, a_unit()));
}

/// The text between the tags of a page, with entities put back.
inline std::string text_of_page(const std::string& page) {
  std::string text;
  bool within = false;
  for (std::size_t at = page.find("</head>"); at < page.size(); ++at) {
    if (page[at] == '<') within = true;
    if (!within) text += page[at];
    if (page[at] == '>') {
      within = false;
      text += ' ';
    }
  }
  for (const auto& [entity, sign] : {std::pair{"&lt;", "<"},
                                     {"&gt;", ">"},
                                     {"&quot;", "\""},
                                     {"&apos;", "'"},
                                     {"&rsquo;", "'"},
                                     {"&amp;", "&"}}) {
    for (std::size_t at = 0; (at = text.find(entity, at)) != std::string::npos; ++at)
      text.replace(at, std::string(entity).size(), sign);
  }
  return text;
}

}  // namespace support
