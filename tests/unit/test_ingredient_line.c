/* Ingredient lines as cooks write them, each with how it must be read (see shown_line.h); behind
 * "!" the notices. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "judge/rules.h"
#include "read/yaml_tree.h"
#include "shown_line.h"
#include "small_lexicon.h"
#include "read/ingredient_map.h"

static const struct {
    const char *line, *read;
} lines[] = {
    {"2 tbsp () butter", "2 tbsp [butter]"},
    {"1 cup (170 g) coarse polenta", "1 cup = 170 g [coarse polenta]"},
    {"2½ cups water", "2.5 cup [water]"},
    {"1 tbsp garlic-infused oil, plus 1 tsp to brush",
     "1 tbsp [garlic-infused oil] {plus 1 tsp to brush} extra 1 tsp"},
    {"3 medium tomatoes, seeds removed", "medium 3 [tomatoes] {seeds removed}"},
    {"2 tbsp maple syrup or brown sugar", "2 tbsp [maple syrup] | 2 tbsp [brown sugar]"},
    {"a pinch of smoked paprika (optional)", "optional 1 pinch [smoked paprika]"},
    {"1 x 400 g tin chickpeas, drained", "1x400 g = 1 can# [chickpeas] {drained}"},
    {"1 (14-oz) can chickpeas, drained and rinsed",
     "1x14 oz = 1 can# [chickpeas] {drained and rinsed}"},
    {"1 14.5-ounce can tomatoes", "1x14.5 oz = 1 can# [tomatoes]"},
    {"2 400g tins chickpeas", "2x400 g = 2 can# [chickpeas]"},
    {"juice of 1 lime", "1 [juice of lime]"},
    {"zest and juice of 1 lemon", "1 [juice and zest of lemon]"},
    {"finely grated zest of 2 lemons", "2 [zest of lemons]"},
    {"1 lemon, juiced", "1 [juice of lemon] {juiced}"},
    {"Juice of half a lemon", "0.5 [juice of lemon]"},
    {"1 cup / 250 ml milk", "1 cup = 250 ml [milk]"},
    {"200g/7oz butter", "200 g = 7 oz [butter]"},
    {"2 tbsp (30 g) butter", "2 tbsp = 30 g [butter]"},
    {"3 tbsp + 1 tsp sugar", "3 tbsp +1 tsp [sugar]"},
    {"1 cup plus 2 tbsp flour", "1 cup +2 tbsp [flour]"},
    {"1 lb 4 oz potatoes", "1 lb +4 oz [potatoes]"},
    {"1 cup walnuts, chopped", "1 cup [walnuts] {chopped}"},
    {"1 cup chopped walnuts", "1 cup [chopped walnuts]"},
    {"salt and pepper", "[salt] & [pepper]"},
    {"<li>1&frac12; cups&nbsp;milk</li>", "1.5 cup [milk]"},
    {"&#189;&#xa0;tsp salt", "0.5 tsp [salt]"},
    {"1&#10;tsp s&#x0c;al&#x202e;t&#xfffe;", "1 tsp [salt]"},
    {"\xe2\x96\xa2 2 cups sug\xc2\xad"
     "ar\xe2\x80\x8b",
     "2 cup [sugar]"},
    {"- [ ] **2 cups** [sugar](sugar.md), sifted", "2 cup [sugar] {sifted}"},
    {"1.000 g flour", "[flour] unread  !unit-ambiguous@1+5[1.000]"},
    {"1.500 kg flour", "1.5 kg [flour]"},
    {"salt &amp; pepper", "[salt] & [pepper]"},
    {"2 cups <b>sug</b>ar", "2 cup [sugar]"},
    {"~~2 tbsp butter~~ 1 cup milk", "1 cup [milk]  !line-struck@3+13[2 tbsp butter]"},
    {"~~2 tbsp butter~~", "!line-struck@3+13[2 tbsp butter]"},
    {"1 tsp.sugar", "1 tsp [sugar]"},
    {"a cup or so of sugar", "1 cup [sugar]"},
    {"salt and pepper, to taste", "[salt] taste & [pepper] taste"},
    {"Salt to taste", "[Salt] taste"},
    {"a handful of basil", "1 handful [basil]"},
    {"handful basil leaves", "1 handful [basil leaves]"},
    {"2 cloves garlic", "2 clove [garlic]"},
    {"garlic, 2 cloves", "2 clove [garlic]"},
    {"2 garlic cloves, crushed", "2 clove [garlic] {crushed}"},
    {"flour - 200 g", "200 g [flour]"},
    {"flour: 200 g", "200 g [flour]"},
    {"flour 200 g", "200 g [flour]"},
    {"6 cloves", "6 [cloves]"},
    {"the green part of 1 leek, sliced", "1 [leek] {green part, sliced}"},
    {"green tops of 4 spring onions", "4 [spring onions] {green tops}"},
    {"1.5 kg piece of beef brisket", "1.5 kg = 1 piece# [beef brisket]"},
    {"2 pieces (300 g) salmon", "2 piece = 300 g [salmon]"},
    {"400 g tin chickpeas in brine, drained", "400 g = 1 can# [chickpeas] {in brine, drained}"},
    {"tbsp 1 mirin", "1 tbsp [mirin]"},
    {"tbsp. 1½ mirin", "1.5 tbsp [mirin]"},
    {"T 55 flour", "[T 55 flour]"},
    {"1 cup packed brown sugar", "packed 1 cup [brown sugar]"},
    {"1 cup brown sugar, packed", "packed 1 cup [brown sugar]"},
    {"1 heaped tbsp cocoa", "heaped 1 tbsp [cocoa]"},
    {"heaped tablespoon of cocoa", "heaped 1 tbsp [cocoa]"},
    {"scant ½ cup milk", "scant 0.5 cup [milk]"},
    {"1 tbsp oil or 15 g butter", "1 tbsp [oil] | 15 g [butter]"},
    {"optional: 2 tbsp pine nuts", "optional 2 tbsp [pine nuts]"},
    {"2 large eggs", "large 2 [eggs]"},
    {"1 small onion", "small 1 [onion]"},
    {"2-3 tomatoes", "2-3 [tomatoes]"},
    {"2 to 4 carrots", "2-4 [carrots]"},
    {"2–4 carrots", "2-4 [carrots]"},
    {"about 2 carrots", "~2 [carrots]"},
    {"~200 g rice", "~200 g [rice]"},
    {"a couple of carrots", "2 [carrots]"},
    {"half a dozen eggs", "6 [eggs]"},
    {"a dozen eggs", "12 [eggs]"},
    {"2 tbps sugar", "[sugar] unread  !unit-unknown@3+4[tbps]"},
    {"3 lumps of ginger", "[ginger] unread  !unit-unknown@3+5[lumps]"},
    {"3 tomatoes", "3 [tomatoes]"},
    {"2 teapsoons sugar", "[sugar] unread  !unit-unknown@3+9[teapsoons]"},
    {"1 T sugar", "1 tbsp [sugar]"},
    {"1 t. salt", "1 tsp [salt]"},
    {"2 tbsp. sugar.", "2 tbsp [sugar]"},
    {"oil for frying", "[oil] {for frying}"},
    {"butter, for greasing", "[butter] {for greasing}"},
    {"plain flour for dusting", "[plain flour] {for dusting}"},
    {"2 tbsp olive oil, plus extra to serve", "2 tbsp [olive oil] {plus extra to serve} extra"},
    {"1 cup rice plus 1 tbsp for dusting", "1 cup [rice] {plus 1 tbsp for dusting} extra 1 tbsp"},
    {"red or white wine vinegar, 2 tbsp",
     "2 tbsp [red wine vinegar] | 2 tbsp [white wine vinegar]"},
    {"1 tbsp red or white wine vinegar", "1 tbsp [red wine vinegar] | 1 tbsp [white wine vinegar]"},
    {"2 tbsp fresh oregano (or 2 tsp dried)", "2 tbsp [fresh oregano] | 2 tsp [dried oregano]"},
    {"1 tbsp parsley and/or coriander", "1 tbsp [parsley] | 1 tbsp [coriander]"},
    {"courgette/zucchini", "[courgette] | [zucchini]"},
    {"1 courgette/zucchini", "1 [courgette] | 1 [zucchini]"},
    {"a 2 cm piece of ginger", "1x2 cm [ginger]"},
    {"1-inch piece ginger, grated", "1 inch [ginger] {grated}"},
    {"2 cm ginger", "2 cm [ginger]"},
    {"5-spice powder, 1 tsp", "1 tsp [5-spice powder]"},
    {"1 tsp five-spice powder", "1 tsp [five-spice powder]"},
    {"100 g 70% chocolate", "100 g [70% chocolate]"},
    {"1 cup 2% milk", "1 cup [2% milk]"},
    {"1 cup 240 ml milk", "1 cup = 240 ml [milk]"},
    {"**200 g** *plain* flour", "200 g [plain flour]"},
    {"1 cup sifted flour", "sifted 1 cup [flour]"},
    {"1 cup flour, sifted", "1 cup [flour] {sifted}"},
    {"2 x 125 g blocks firm tofu", "2x125 g = 2 block# [firm tofu]"},
    {"4 salmon fillets (150 g each)", "4 fillet = 4x150 g [salmon fillets]"},
    {"2 tins chickpeas, 400 g each", "2 can# = 2x400 g [chickpeas]"},
    {"2 tins (400 g each) chickpeas", "2 can# = 2x400 g [chickpeas]"},
    {"1 tsp each salt and pepper", "1 tsp [salt] & 1 tsp [pepper]"},
    {"a pinch each of cumin and nutmeg", "1 pinch [cumin] & 1 pinch [nutmeg]"},
    {"salt, pepper", "[salt] & [pepper]"},
    {"200 g feta, crumbled, or goat's cheese", "200 g [feta] {crumbled} | 200 g [goat's cheese]"},
    {"1 onion, sliced or chopped", "1 [onion] {sliced or chopped}"},
    {"2 large, ripe tomatoes", "large 2 [ripe tomatoes]"},
    {"1 cup cold, filtered water", "1 cup [cold filtered water]"},
    {"1,5 kg potatoes", "1.5 kg [potatoes]"},
    {"1,000 g potatoes", "1000 g [potatoes]"},
    {"1⁄2 cup rice", "0.5 cup [rice]"},
    {"1 and 1/2 cups rice", "1.5 cup [rice]"},
    {"1-1/2 cups rice", "1.5 cup [rice]"},
    {"one and a half cups rice", "1.5 cup [rice]"},
    {"½ tsp salt, or to taste", "0.5 tsp [salt] taste"},
    {"4 egg whites", "4 [egg whites]"},
    {"20 mint leaves", "20 leaf [mint leaves]"},
    {"4 bay leaves", "4 [bay leaves]"},
    {"a few sprigs of thyme", "~2-4 sprig [thyme]"},
    {"2 hearts of palm", "2 [hearts of palm]"},
    {"1 tsp bicarbonate of soda", "1 tsp [bicarbonate of soda]"},
    {"half and half", "[half and half]"},
    {"250ml (1 cup) cream", "250 ml = 1 cup [cream]"},
    {"2 sticks (1 cup) butter", "2 stick = 1 cup [butter]"},
    {"1 large (about 200 g) onion", "large 1 = ~200 g [onion]"},
    {"For the sauce: 1 tbsp oil", "1 tbsp [oil] {For the sauce}"},
    {"200-250 g rice", "200-250 g [rice]"},
    {"200 g - 250 g rice", "200-250 g [rice]"},
    {"1 tbsp soy sauce (or tamari)", "1 tbsp [soy sauce] | 1 tbsp [tamari]"},
    {"milk or water", "[milk] | [water]"},
    {"1 tbsp olive oil and salt to taste", "1 tbsp [olive oil] & [salt] taste"},
    {"a little olive oil", "[olive oil]"},
    {"1/2 lemon, zest only", "0.5 [zest of lemon] {zest only}"},
    {"1 cup rolled oats (see note)", "1 cup [rolled oats] {see note}"},
    {"2 tbsp", "!line-unreadable@1+6[2 tbsp]"},
    {"100 g", "!line-unreadable@1+5[100 g]"},
    {"1 sleeve (200 g) crackers", "1x200 g [crackers] {in sleeve}"},
    {"2 sleeves (200 g) crackers, crushed", "2x200 g [crackers] {in sleeves, crushed}"},
    {"1 cup sugar, divided", "1 cup [sugar] {divided}"},
    {"2 tbsp honey or golden syrup, warmed",
     "2 tbsp [honey] {warmed} | 2 tbsp [golden syrup] {warmed}"},
    {"½ cup (125 ml) milk or oat milk", "0.5 cup = 125 ml [milk] | 0.5 cup = 125 ml [oat milk]"},
    {"2 tsp baking powder (gluten-free)", "2 tsp [baking powder] {gluten-free}"},
    {"3/4 cup (3 oz/85 g) walnuts", "0.75 cup = 3 oz = 85 g [walnuts]"},
    {"1 cup (packed) brown sugar", "packed 1 cup [brown sugar]"},
    {"1 cup firmly packed brown sugar", "packed 1 cup [brown sugar]"},
    {"10 g (2 tsp) salt", "10 g = 2 tsp [salt]"},
    {"30 g (2 tbsp) butter", "30 g = 2 tbsp [butter]"},
    {"2 tbsp each parsley and mint, chopped",
     "2 tbsp [parsley] {chopped} & 2 tbsp [mint] {chopped}"},
    {"1 tin chickpeas (400 g)", "1 can# = 1x400 g [chickpeas]"},
    {"1 tin chickpeas, 400 g", "1 can# = 1x400 g [chickpeas]"},
    {"1 tin chickpeas (400 g), drained", "1 can# = 1x400 g [chickpeas] {drained}"},
    {"1 onion (about 150 g), diced", "1 = ~150 g [onion] {diced}"},
    {"2 onions, about 300 g in total", "2 = ~300 g [onions]"},
    {"2 tins (800 g total) chickpeas", "2 can# = 800 g [chickpeas]"},
    {"400 g tin chickpeas", "400 g = 1 can# [chickpeas]"},
    {"400g can chickpeas, drained and rinsed (240g drained weight)",
     "400 g = 1 can# [chickpeas] {drained and rinsed, 240g drained weight}"},
    {"1.5 L water", "1.5 l [water]"},
    {"2-3 large carrots", "large 2-3 [carrots]"},
    {"2 large or 3 small onions", "large 2 = small 3 [onions]"},
    {"1 small or medium onion", "small 1 [onion]"},
    {"1 cup milk (dairy or plant)", "1 cup [milk] {dairy or plant}"},
    {"2 cups chicken or vegetable stock", "2 cup [chicken stock] | 2 cup [vegetable stock]"},
    {"200 g spinach (fresh or frozen)", "200 g [spinach] {fresh or frozen}"},
    {"a few basil leaves", "~2-4 leaf [basil leaves]"},
    {"basil leaves", "[basil leaves]"},
    {"handful of basil, torn", "1 handful [basil] {torn}"},
    {"1 tbsp lemon juice, plus 1 tsp", "1 tbsp [lemon juice] {plus 1 tsp} extra 1 tsp"},
    {"rice, to serve", "[rice] {to serve}"},
    {"1 cup rice, to serve", "1 cup [rice] {to serve}"},
    {"salt", "[salt]"},
    {"salt, a pinch", "1 pinch [salt]"},
    {"salt (a pinch)", "1 pinch [salt]"},
    {"½ tsp salt + extra to taste", "0.5 tsp [salt] {plus extra to taste} extra"},
    {"1 x 2 cm piece ginger", "1x2 cm [ginger]"},
    {"1 (2-inch) piece ginger", "1x2 inch [ginger]"},
    {"1 (2 inch) piece of ginger, peeled", "1x2 inch [ginger] {peeled}"},
    {"1 red onion", "1 [red onion]"},
    {"1 cup sliced almonds", "1 cup [sliced almonds]"},
    {"4 slices bread", "4 slice [bread]"},
    {"1/2 bunch parsley", "0.5 bunch [parsley]"},
    {"half bunch parsley", "0.5 bunch [parsley]"},
    {"one bunch parsley", "1 bunch [parsley]"},
    {"1 large head lettuce", "large 1 head [lettuce]"},
    {"2 heaped tsp cocoa", "heaped 2 tsp [cocoa]"},
    {"2 heaped teaspoons of cocoa", "heaped 2 tsp [cocoa]"},
    {"1 cup cocoa, sifted", "1 cup [cocoa] {sifted}"},
    {"1 cup sifted cocoa", "sifted 1 cup [cocoa]"},
    {"scant 1 cup milk", "scant 1 cup [milk]"},
    {"1 scant cup milk", "scant 1 cup [milk]"},
    {"a scant cup milk", "scant 1 cup [milk]"},
    {"a heaped teaspoon of cocoa", "heaped 1 tsp [cocoa]"},
    {"1 generous cup spinach", "rounded 1 cup [spinach]"},
    {"juice of 1 lemon and 1 lime", "1 [juice of lemon] & 1 [juice of lime]"},
    {"zest of 1 lemon", "1 [zest of lemon]"},
    {"juice and zest of 2 limes", "2 [juice and zest of limes]"},
    {"1 lemon, zested and juiced", "1 [juice and zest of lemon] {zested and juiced}"},
    {"1 lemon, juice only", "1 [juice of lemon] {juice only}"},
    {"finely grated zest and juice of 1 lemon", "1 [juice and zest of lemon]"},
    {"1 lime, juiced (about 2 tbsp)", "1 = ~2 tbsp [juice of lime] {juiced}"},
    {"2 lemons (zest and juice)", "2 [juice and zest of lemons] {zest and juice}"},
    {"1 tbsp juice of lemon", "1 tbsp [juice of lemon]"},
    {"2 cm piece ginger", "2 cm [ginger]"},
    {"ginger, 2 cm piece", "2 cm [ginger]"},
    {"70% chocolate, 100 g", "100 g [70% chocolate]"},
    {"100 g dark chocolate (70%)", "100 g [dark chocolate] {70%}"},
    {"100 g dark chocolate, 70% cocoa", "100 g [dark chocolate] {70% cocoa}"},
    {"2 cups flour, plus 1 tbsp (10 g) for dusting",
     "2 cup [flour] {plus 1 tbsp (10 g) for dusting} extra 1 tbsp"},
    {"2 tbsp olive oil + extra to drizzle", "2 tbsp [olive oil] {plus extra to drizzle} extra"},
    {"2 tbsp olive oil, and extra to drizzle", "2 tbsp [olive oil] {plus extra to drizzle} extra"},
    {"1 tbsp butter or oil, for frying",
     "1 tbsp [butter] {for frying} | 1 tbsp [oil] {for frying}"},
    {"1 cup walnuts, or pecans", "1 cup [walnuts] | 1 cup [pecans]"},
    {"1 tbsp butter, melted or 1 tbsp oil", "1 tbsp [butter] {melted} | 1 tbsp [oil]"},
    {"1 tbsp parsley or mint or coriander",
     "1 tbsp [parsley] | 1 tbsp [mint] | 1 tbsp [coriander]"},
    {"1 tbsp parsley, mint or coriander", "1 tbsp [parsley] | 1 tbsp [mint] | 1 tbsp [coriander]"},
    {"3 tbsp water or as needed", "3 tbsp [water] {or as needed}"},
    {"1 tsp salt or more to taste", "1 tsp [salt] taste"},
    {"2 tbsp soy sauce/tamari", "2 tbsp [soy sauce] | 2 tbsp [tamari]"},
    {"2 eggs/4 egg whites", "2 [eggs] | 4 [egg whites]"},
    {"1 cup/250 ml milk", "1 cup = 250 ml [milk]"},
    {"1 cup | 250 ml milk", "1 cup = 250 ml [milk]"},
    {"1 cup = 250 ml milk", "1 cup = 250 ml [milk]"},
    {"1 cup [250 ml] milk", "1 cup = 250 ml [milk]"},
    {"2 cups, 300 g flour", "2 cup = 300 g [flour]"},
    {"1kg/2lb 4oz potatoes", "1 kg = 2 lb +4 oz [potatoes]"},
    {"1,250 g potatoes", "1250 g [potatoes]"},
    {"0,5 l milk", "0.5 l [milk]"},
    {"1 1⁄2 cups milk", "1.5 cup [milk]"},
    {"1½-2 cups milk", "1.5-2 cup [milk]"},
    {"1½ to 2 cups milk", "1.5-2 cup [milk]"},
    {"1 to 1½ cups milk", "1-1.5 cup [milk]"},
    {"4–5 tomatoes", "4-5 [tomatoes]"},
    {"4 - 5 tomatoes", "4-5 [tomatoes]"},
    {"4 or 5 tomatoes", "4-5 [tomatoes]"},
    {"one or two carrots", "~1-2 [carrots]"},
    {"two to three carrots", "2-3 [carrots]"},
    {"1/0 cup milk", "[1/0 cup milk] unread  !line-unreadable@1+12[1/0 cup milk]"},
    {"0 cups milk", "0 cup [milk]"},
    {"99999999999 cups milk",
     "[99999999999 cups milk] unread  !line-unreadable@1+21[99999999999 cups milk]"},
    {"1/2/3 cup milk", "[1/2/3 cup milk] unread  !line-unreadable@1+14[1/2/3 cup milk]"},
    {"1..5 cups milk", "[1..5 cups milk] unread  !line-unreadable@1+14[1..5 cups milk]"},
    {"(2 tbsp butter", "2 tbsp [butter]"},
    {"2 tbsp butter)", "2 tbsp [butter]"},
    {"1 cup", "!line-unreadable@1+5[1 cup]"},
    {"optional", "optional   !line-unreadable@1+8[optional]"},
    {"2 x eggs", "2 [eggs]"},
    {"2x carrots", "2 [carrots]"},
    {"1 kg potatoes, peeled and cut into 2 cm chunks",
     "1 kg [potatoes] {peeled and cut into 2 cm chunks}"},
    {"500g/1lb 2oz firm tofu", "500 g = 1 lb +2 oz [firm tofu]"},
    {"2 x 400g/14oz tins chopped tomatoes", "2x400 g = 2x14 oz = 2 can# [chopped tomatoes]"},
    {"1 x 400g can/tin chickpeas", "1x400 g = 1 can# [chickpeas]"},
    {"1 tin (400 g/14 oz) coconut milk", "1 can# = 1x400 g = 1x14 oz [coconut milk]"},
    {"¼ cup (60 ml) olive oil, plus more for drizzling",
     "0.25 cup = 60 ml [olive oil] {plus more for drizzling} extra"},
    {"1¼ cups (310 ml) milk", "1.25 cup = 310 ml [milk]"},
    {"1 1/4 cups plus 2 tablespoons (170 g) all-purpose flour",
     "1.25 cup +2 tbsp = 170 g [all-purpose flour]"},
    {"2/3 cup caster sugar", "0.667 cup [caster sugar]"},
    {"1/2 teaspoon fine sea salt", "0.5 tsp [fine sea salt]"},
    {"Pinch of salt", "1 pinch [salt]"},
    {"Pinch salt", "1 pinch [salt]"},
    {"pinch of sugar, to taste", "1 pinch [sugar] taste"},
    {"2 pinches of salt", "2 pinch [salt]"},
    {"a generous pinch of salt", "rounded 1 pinch [salt]"},
    {"a good handful of fresh basil leaves, torn", "1 handful [fresh basil leaves] {torn}"},
    {"1 small bunch coriander, leaves picked", "small 1 bunch [coriander] {leaves picked}"},
    {"1 large bunch of parsley", "large 1 bunch [parsley]"},
    {"a small handful of mint", "small 1 handful [mint]"},
    {"1 sprig rosemary", "1 sprig [rosemary]"},
    {"2 sprigs of thyme, plus extra to garnish", "2 sprig [thyme] {plus extra to garnish} extra"},
    {"4 spring onions, green part only, sliced", "4 [spring onions] {green part only, sliced}"},
    {"4 spring onions (green parts only), finely sliced",
     "4 [spring onions] {green parts only, finely sliced}"},
    {"1 red capsicum, diced", "1 [red capsicum] {diced}"},
    {"1 cup (about 4 oz) grated cheddar cheese", "1 cup = ~4 oz [grated cheddar cheese]"},
    {"100 g cheddar cheese, grated (about 1 cup)", "100 g = ~1 cup [cheddar cheese] {grated}"},
    {"4 oz. cheddar cheese, shredded (1 cup)", "4 oz = 1 cup [cheddar cheese] {shredded}"},
    {"1 egg", "1 [egg]"},
    {"1 egg, beaten", "1 [egg] {beaten}"},
    {"3 large free-range eggs, at room temperature",
     "large 3 [free-range eggs] {at room temperature}"},
    {"2 egg whites", "2 [egg whites]"},
    {"3 egg yolks", "3 [egg yolks]"},
    {"200 ml coconut milk", "200 ml [coconut milk]"},
    {"1 (13.5-ounce) can full-fat coconut milk", "1x13.5 oz = 1 can# [full-fat coconut milk]"},
    {"1 13.5 oz can coconut milk", "1x13.5 oz = 1 can# [coconut milk]"},
    {"One 14-ounce can diced tomatoes", "1x14 oz = 1 can# [diced tomatoes]"},
    {"One 400g tin of tomatoes", "1x400 g = 1 can# [tomatoes]"},
    {"Two 400 g tins chickpeas", "2x400 g = 2 can# [chickpeas]"},
    {"half a cucumber", "0.5 [cucumber]"},
    {"½ cucumber, deseeded", "0.5 [cucumber] {deseeded}"},
    {"half a lemon, juiced", "0.5 [juice of lemon] {juiced}"},
    {"juice of ½ lemon", "0.5 [juice of lemon]"},
    {"juice of 1 large lemon", "large 1 [juice of lemon]"},
    {"juice of 1 lime (about 2 tbsp)", "1 = ~2 tbsp [juice of lime]"},
    {"2 tbsp lemon juice", "2 tbsp [lemon juice]"},
    {"2 tbsp freshly squeezed lemon juice", "2 tbsp [freshly squeezed lemon juice]"},
    {"1 tsp finely grated lemon zest", "1 tsp [finely grated lemon zest]"},
    {"zest of 1 orange, finely grated", "1 [zest of orange] {finely grated}"},
    {"1 orange, zest and juice", "1 [juice and zest of orange] {zest and juice}"},
    {"1 lemon, cut into wedges, to serve", "1 [lemon] {cut into wedges, to serve}"},
    {"lemon wedges, to serve", "[lemon wedges] {to serve}"},
    {"fresh basil leaves, to serve", "[fresh basil leaves] {to serve}"},
    {"sea salt flakes", "[sea salt flakes]"},
    {"Salt and freshly ground black pepper", "[Salt] & [freshly ground black pepper]"},
    {"salt & pepper", "[salt] & [pepper]"},
    {"sea salt and freshly ground black pepper, to taste",
     "[sea salt] taste & [freshly ground black pepper] taste"},
    {"Freshly ground black pepper to taste", "[Freshly ground black pepper] taste"},
    {"2 teaspoons salt, or to taste", "2 tsp [salt] taste"},
    {"vegetable oil, for frying", "[vegetable oil] {for frying}"},
    {"oil, for deep-frying", "[oil] {for deep-frying}"},
    {"1 tablespoon butter, for greasing", "1 tbsp [butter] {for greasing}"},
    {"2 tablespoons butter, melted", "2 tbsp [butter] {melted}"},
    {"50 g butter, softened, plus extra for greasing",
     "50 g [butter] {softened, plus extra for greasing} extra"},
    {"50 g butter plus extra for greasing", "50 g [butter] {plus extra for greasing} extra"},
    {"1 tbsp sesame oil (optional)", "optional 1 tbsp [sesame oil]"},
    {"1 tsp chilli flakes, optional", "optional 1 tsp [chilli flakes]"},
    {"Optional: 1 tsp chilli flakes", "optional 1 tsp [chilli flakes]"},
    {"(optional) 1 tsp chilli flakes", "optional 1 tsp [chilli flakes]"},
    {"2 tsp cornflour mixed with 1 tbsp water", "2 tsp [cornflour] & 1 tbsp [water]"},
    {"1-2 tbsp water", "1-2 tbsp [water]"},
    {"1 to 2 tablespoons water, as needed", "1-2 tbsp [water] {as needed}"},
    {"3-4 tablespoons cold water", "3-4 tbsp [cold water]"},
    {"1 cup rolled oats (gluten-free if needed)", "1 cup [rolled oats] {gluten-free if needed}"},
    {"1 cup gluten-free rolled oats", "1 cup [gluten-free rolled oats]"},
    {"1 cup long-grain white rice", "1 cup [long-grain white rice]"},
    {"1 cup basmati rice, rinsed", "1 cup [basmati rice] {rinsed}"},
    {"250 g rice noodles", "250 g [rice noodles]"},
    {"1 packet (250 g) rice noodles", "1 packet# = 1x250 g [rice noodles]"},
    {"1 250 g packet rice noodles", "1x250 g = 1 packet# [rice noodles]"},
    {"a 250 g block of firm tofu", "1x250 g = 1 block# [firm tofu]"},
    {"1 block firm tofu (400 g)", "1 block# = 1x400 g [firm tofu]"},
    {"14-oz block firm tofu", "14 oz = 1 block# [firm tofu]"},
    {"200 g (7 oz) firm tofu, pressed", "200 g = 7 oz [firm tofu] {pressed}"},
    {"2 medium carrots, peeled and grated", "medium 2 [carrots] {peeled and grated}"},
    {"2 carrots", "2 [carrots]"},
    {"1 stick celery", "1 stick [celery]"},
    {"1 stalk celery", "1 stalk [celery]"},
    {"2 celery stalks", "2 stalk [celery]"},
    {"2 sticks butter", "2 stick [butter]"},
    {"1 stick (113 g) unsalted butter, cold and cubed",
     "1 stick = 113 g [unsalted butter] {cold and cubed}"},
    {"thumb-sized piece of ginger, grated", "1 thumb [ginger] {grated}"},
    {"1 thumb-sized piece ginger", "1 thumb [ginger]"},
    {"2-inch piece of fresh ginger", "2 inch [fresh ginger]"},
    {"2.5 cm piece ginger", "2.5 cm [ginger]"},
    {"a 3cm knob of ginger", "1x3 cm [ginger]"},
    {"5 cm ginger, peeled", "5 cm [ginger] {peeled}"},
    {"1/4 tsp ground cloves", "0.25 tsp [ground cloves]"},
    {"1 bay leaf", "1 [bay leaf]"},
    {"2 dried bay leaves", "2 [dried bay leaves]"},
    {"6 kaffir lime leaves", "6 [kaffir lime leaves]"},
    {"8 iceberg lettuce leaves", "8 [iceberg lettuce leaves]"},
    {"1 cup frozen peas", "1 cup [frozen peas]"},
    {"1 heaping cup spinach", "heaped 1 cup [spinach]"},
    {"2 packed cups baby spinach", "packed 2 cup [baby spinach]"},
    {"1/2 cup packed light brown sugar", "packed 0.5 cup [light brown sugar]"},
    {"1/2 cup lightly packed basil leaves", "0.5 cup [basil leaves]"},
    {"1 cup + 2 tbsp sugar", "1 cup +2 tbsp [sugar]"},
    {"2 cups minus 1 tbsp flour", "2 cup +-1 tbsp [flour]"},
    {"1 level tablespoon cornflour", "level 1 tbsp [cornflour]"},
    {"3 rounded teaspoons baking powder", "rounded 3 tsp [baking powder]"},
    {"1 scant teaspoon salt", "scant 1 tsp [salt]"},
    {"300 mls water", "300 ml [water]"},
    {"1 pint of milk", "1 pint [milk]"},
    {"1 pt milk", "1 pint [milk]"},
    {"1.5 litres vegetable stock", "1.5 l [vegetable stock]"},
    {"2 cups (500 ml) chicken stock or water",
     "2 cup = 500 ml [chicken stock] | 2 cup = 500 ml [water]"},
    {"1 cup walnuts or pecans, roughly chopped",
     "1 cup [walnuts] {roughly chopped} | 1 cup [pecans] {roughly chopped}"},
    {"1/2 cup almond or soy milk", "0.5 cup [almond milk] | 0.5 cup [soy milk]"},
    {"1 tsp each ground cumin and coriander", "1 tsp [ground cumin] & 1 tsp [coriander]"},
    {"1 tsp each of cumin, coriander and paprika",
     "1 tsp [cumin] & 1 tsp [coriander] & 1 tsp [paprika]"},
    {"2 tablespoons each chopped parsley and mint", "2 tbsp [chopped parsley] & 2 tbsp [mint]"},
    {"3 tbsp maple syrup (or honey)", "3 tbsp [maple syrup] | 3 tbsp [honey]"},
    {"1 tbsp tamari or soy sauce", "1 tbsp [tamari] | 1 tbsp [soy sauce]"},
    {"1 tbsp tamari (or 1 tbsp soy sauce)", "1 tbsp [tamari] | 1 tbsp [soy sauce]"},
    {"2 eggs or 1/4 cup aquafaba", "2 [eggs] | 0.25 cup [aquafaba]"},
    {"1 tbsp white miso paste*", "1 tbsp [white miso paste]"},
    {"1 tbsp white miso paste¹", "1 tbsp [white miso paste]"},
    {"1 cup quinoa[^1]", "1 cup [quinoa]"},
    {"- 1 cup quinoa", "1 cup [quinoa]"},
    {"• 1 cup quinoa", "1 cup [quinoa]"},
    {"**1 cup** quinoa", "1 cup [quinoa]"},
    {"1 cup [quinoa](https://example.org/quinoa)", "1 cup [quinoa]"},
    {"1 cup quinoa, cooked (see Note 1)", "1 cup [quinoa] {cooked, see Note 1}"},
    {"quinoa, 1 cup", "1 cup [quinoa]"},
    {"Quinoa – 200 g", "200 g [Quinoa]"},
    {"Polenta 170g", "170 g [Polenta]"},
    {"salmon (4 x 150 g fillets)", "4x150 g [salmon] {fillets}"},
    {"4 x 150 g salmon fillets, skin on", "4x150 g [salmon fillets] {skin on}"},
    {"4 skinless salmon fillets (about 150 g each)", "4 fillet = 4x~150 g [skinless salmon]"},
    {"1 tbsp lemon and lime juice", "1 tbsp [lemon juice] & 1 tbsp [lime juice]"},
    {"4 fish cakes", "4 [fish cakes]"},
    {"200 g tomatoes with garlic", "200 g [tomatoes with garlic]"},
    {"4 (6-ounce) salmon fillets", "4x6 oz [salmon fillets]"},
    {"2 chicken breasts (about 500 g), sliced", "2 = ~500 g [chicken breasts] {sliced}"},
    {"600 g chicken thighs, trimmed", "600 g [chicken thighs] {trimmed}"},
    {"1 whole chicken (about 1.5 kg)", "1 = ~1.5 kg [whole chicken]"},
    {"1.5-2 kg whole chicken", "1.5-2 kg [whole chicken]"},
    {"8 slices gluten-free bread", "8 slice [gluten-free bread]"},
    {"2 slices of bread", "2 slice [bread]"},
    {"1 head of broccoli", "1 head [broccoli]"},
    {"1 head broccoli, cut into florets", "1 head [broccoli] {cut into florets}"},
    {"1 small head cauliflower (about 600 g)", "small 1 head = ~600 g [cauliflower]"},
    {"1 garlic clove", "1 clove [garlic]"},
    {"3 cloves of garlic, minced", "3 clove [garlic] {minced}"},
    {"2 fat cloves garlic", "2 clove [garlic]"},
    {"a few drops of vanilla extract", "~2-4 drop [vanilla extract]"},
    {"a drizzle of olive oil", "1 drizzle [olive oil]"},
    {"drizzle of honey", "1 drizzle [honey]"},
    {"a splash of milk", "1 splash [milk]"},
    {"splash of soy sauce", "1 splash [soy sauce]"},
    {"a dash of Tabasco", "1 dash [Tabasco]"},
    {"a knob of butter", "1 knob [butter]"},
    {"knob of butter", "1 knob [butter]"},
    {"a squeeze of lemon", "1 squeeze [lemon]"},
    {"squeeze of lemon juice", "1 squeeze [lemon juice]"},
    {"1 tbs sugar", "1 tbsp [sugar]"},
    {"1 T. sugar", "1 tbsp [sugar]"},
    {"1 t sugar", "1 tsp [sugar]"},
    {"1 c. sugar", "1 cup [sugar]"},
    {"1 Tbsp. sugar", "1 tbsp [sugar]"},
    {"2 Tablespoons sugar", "2 tbsp [sugar]"},
    {"8 fl oz milk", "8 fl-oz [milk]"},
    {"8 fluid ounces milk", "8 fl-oz [milk]"},
    {"2 lbs potatoes", "2 lb [potatoes]"},
    {"2 lb. potatoes", "2 lb [potatoes]"},
    {"1½ lb potatoes", "1.5 lb [potatoes]"},
    {"1 lb. 8 oz. potatoes", "1 lb +8 oz [potatoes]"},
    {"1lb 2oz potatoes", "1 lb +2 oz [potatoes]"},
    {"100gm sugar", "100 g [sugar]"},
    {"100 grams sugar", "100 g [sugar]"},
    {"0.5 kg flour", "0.5 kg [flour]"},
    {".5 cup sugar", "0.5 cup [sugar]"},
    {"1/3–1/2 cup water", "0.333-0.5 cup [water]"},
    {"1/3 to 1/2 cup water", "0.333-0.5 cup [water]"},
    {"1 ½ cups water", "1.5 cup [water]"},
    {"1&1/2 cups water", "1.5 cup [water]"},
    {"1 - 2 tsp salt", "1-2 tsp [salt]"},
    {"between 2 and 3 tbsp water", "2-3 tbsp [water]"},
    {"about a cup of water", "~1 cup [water]"},
    {"approx. 200 g sugar", "~200 g [sugar]"},
    {"roughly 2 cups kale", "~2 cup [kale]"},
    {"up to 1 cup water", "~1 cup [water]"},
    {"three eggs", "3 [eggs]"},
    {"a dozen oysters", "12 [oysters]"},
    {"2 dozen mussels", "24 [mussels]"},
    {"several sprigs of dill", "~3-5 sprig [dill]"},
    {"a couple of tablespoons of oil", "2 tbsp [oil]"},
    {"a couple tablespoons oil", "2 tbsp [oil]"},
    {"a half cup of sugar", "0.5 cup [sugar]"},
    {"half cup sugar", "0.5 cup [sugar]"},
    {"three quarters of a cup of milk", "0.75 cup [milk]"},
    {"quarter of a teaspoon salt", "0.25 tsp [salt]"},
    {"one cup sugar", "1 cup [sugar]"},
    {"ice cubes", "[ice cubes]"},
    {"ice", "[ice]"},
    {"water", "[water]"},
    {"cooking spray", "[cooking spray]"},
    {"handful of ice cubes", "1 handful [ice cubes]"},
    {"2 cusp flour", "[flour] unread  !unit-unknown@3+4[cusp]"},
    {"1 pich of salt", "[salt] unread  !unit-unknown@3+4[pich]"},
    {"2 wotsits sugar", "2 [wotsits sugar]"},
    {"2 lumps of butter", "[butter] unread  !unit-unknown@3+5[lumps]"},
};

static const char *
read_line(struct arena *a, struct slice text)
{
    struct notices notices = {a, NULL, 0, 0};
    struct ingredient_line line;
    ingredient_line_read(a, text, NULL, small_lexicon(), &notices, &line);
    struct text t = text_new(a);
    text_add(&t, show_line(a, &line));
    for (size_t i = 0; i < notices.count; i++) {
        const struct notice *n = &notices.items[i];
        text_addf(&t, "  !%s@%u+%u[%.*s]", rules_row(n->rule)->id, n->place.column, n->place.length,
                  SLICE_ARGS(n->what));
    }
    return slice_string(a, slice_trim(text_slice(&t)));
}

static void
reads_lines(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        struct arena *a = arena_open(4096);
        const char *read = read_line(a, slice_of(lines[i].line));
        if (strcmp(read, lines[i].read) != 0)
            fail_msg("%s\n  read as %s\n  not     %s", lines[i].line, read, lines[i].read);
        arena_close(a);
    }
}

static struct ingredient_line
map_line(struct arena *a, const char *yaml, struct notices *notices)
{
    struct ingredient_line line;
    const struct yaml_node *list = yaml_tree_read(a, slice_of(yaml), 1, notices);
    assert_non_null(list);
    const struct yaml_node *node = list->items[0];
    if (node->kind == YAML_MAP_NODE)
        ingredient_line_read_map(a, node, small_lexicon(), notices, &line);
    else
        ingredient_line_read(a, node->text, node, small_lexicon(), notices, &line);
    return line;
}

static void
reads_maps(void **state)
{
    static const struct {
        const char *yaml, *read;
    } maps[] = {
        {"- {food: polenta, amount: 170 g, also: 1 cup}", "170 g = 1 cup [polenta]"},
        {"- {food: oil, amount: 1 cup, stays: 20 %}", "1 cup [oil] stays 0.2-0.2"},
        {"- {food: oil, amount: 1 cup, stays: 10-20 %}", "1 cup [oil] stays 0.1-0.2"},
        {"- {food: water, amount: 2 l, stays: no}", "2 l [water] stays 0-0"},
        {"- {food: oil, stays: half}", "[oil] stays 0.5-0.5"},
        {"- {food: honey, amount: 2 tbsp, optional: yes, or: [maple syrup, 3 tbsp golden syrup]}",
         "optional 2 tbsp [honey] | 2 tbsp [maple syrup] | 3 tbsp [golden syrup]"},
        {"- {food: honey, amount: 2 tbsp, or: {food: sugar, amount: 30 g}}",
         "2 tbsp [honey] | 30 g [sugar]"},
        {"- {food: walnuts, amount: 1 cup, after: chopped}", "1 cup [walnuts] {chopped}"},
        {"- {food: eggs, amount: 2}", "2 [eggs]"},
        {"- {food: feta, amount: 200 g, also: [7 oz, 1 cup]}", "200 g = 7 oz = 1 cup [feta]"},
        {"- flour: 200 g", "200 g [flour]"},
        {"- For the sauce: 1 tbsp oil", "1 tbsp [oil] {For the sauce}"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof maps / sizeof *maps; i++) {
        struct arena *a = arena_open(4096);
        struct notices notices = {a, NULL, 0, 0};
        struct ingredient_line line = map_line(a, maps[i].yaml, &notices);
        assert_string_equal(slice_string(a, show_line(a, &line)), maps[i].read);
        assert_int_equal(notices.count, 0);
        arena_close(a);
    }
}

static void
tells_wrong_maps(void **state)
{
    static const struct {
        const char *yaml;
        enum rule rule;
        uint32_t column;
    } maps[] = {
        {"- {amount: 2 tbsp}", RULE_LINE_UNREADABLE, 3},
        {"- {food: oil, ammount: 2 tbsp}", RULE_KEY_UNKNOWN, 15},
        {"- {food: oil, amount: 2 wotsits}", RULE_UNIT_UNKNOWN, 25},
        {"- {food: oil, amount: lots}", RULE_VALUE_UNREADABLE, 23},
        {"- {food: oil, amount: [1, 2]}", RULE_VALUE_WRONG_TYPE, 23},
        {"- {food: oil, stays: 120 %}", RULE_VALUE_UNREADABLE, 22},
        {"- {food: oil, optional: perhaps}", RULE_VALUE_WRONG_TYPE, 25},
        {"- {food: oil, or: [[milk]]}", RULE_VALUE_WRONG_TYPE, 20},
    };
    (void)state;
    for (size_t i = 0; i < sizeof maps / sizeof *maps; i++) {
        struct arena *a = arena_open(4096);
        struct notices notices = {a, NULL, 0, 0};
        map_line(a, maps[i].yaml, &notices);
        assert_int_equal(notices.count, 1);
        assert_int_equal(notices.items[0].rule, maps[i].rule);
        assert_int_equal(notices.items[0].place.column, maps[i].column);
        arena_close(a);
    }
}

/* bytes of a line in YAML, through quotes and marks, at their own columns */
static void
knows_places(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    struct notices notices = {a, NULL, 0, 0};
    struct ingredient_line line = map_line(a, "- 'cook''s ½ *cup* **brown  sugar**'", &notices);
    const struct written_food *food = &line.options[0].foods[0];
    struct place place = written_line_place(&line, food->name_from, food->name_to);
    assert_int_equal(place.line, 1);
    assert_int_equal(place.column, 4);

    line = map_line(a, "- \"½ *cup* **brown sugar** \\u00e9\"", &notices);
    food = &line.options[0].foods[0];
    assert_true(slice_is(food->name, "brown sugar é"));
    place = written_line_place(&line, food->name_from, food->name_to);
    assert_int_equal(place.column, 14);
    place = written_line_place(&line, food->amounts[0].from, food->amounts[0].to);
    assert_int_equal(place.column, 4);
    assert_int_equal(place.length, 6); /* ½ *cup */

    line = map_line(a, "- 2 tbps\n   sugar", &notices);
    assert_int_equal(notices.count, 1);
    assert_int_equal(notices.items[0].place.line, 1);
    assert_int_equal(notices.items[0].place.column, 5);
    food = &line.options[0].foods[0];
    place = written_line_place(&line, food->name_from, food->name_to);
    assert_int_equal(place.line, 2);
    assert_int_equal(place.column, 4);
    arena_close(a);
}

static void
bounds_long_lines(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    char word[301];
    memset(word, 'w', 300);
    word[300] = '\0';
    char *line = text_format(a, "2 cups %s", word);
    assert_string_equal(read_line(a, slice_of(line)), text_format(a, "2 cup [%s]", word));
    char *many = arena_take(a, 2001 * 3 + 1);
    for (size_t i = 0; i < 2001; i++)
        memcpy(many + 3 * i, "a, ", 3);
    assert_non_null(strstr(read_line(a, slice_of(many)), "!line-unreadable@1+6003[a, a, "));
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reads_lines),       cmocka_unit_test(reads_maps),
        cmocka_unit_test(tells_wrong_maps),  cmocka_unit_test(knows_places),
        cmocka_unit_test(bounds_long_lines),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
