using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Wash;
using CsCheck;
using static Coldpeel.Workshop.Tests.SmallWorkshop;

namespace Coldpeel.Workshop.Tests.Wash;

public sealed class CareSlipsTests
{
    private static readonly Gen<CareLimits> Limits = Gen.Select(
        OneOf(0, 30, 40, 60, 95),
        Gen.Int[0, 2],
        Gen.Int[0, 2],
        OneOf(0, 60, 80),
        OneOf(0, 110, 150, 200),
        Gen.Bool,
        (w, g, b, t, i, d) => new CareLimits(w, g, b, t, i, d)
    );

    private static Gen<int> OneOf(params int[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    // ISO 3758: washing, bleaching, drying, ironing, professional care, in this order, all five.
    [Fact]
    public void The_five_groups_stand_in_the_order_of_the_standard() =>
        Assert.Equal(
            ["Washing", "Bleaching", "Drying", "Ironing", "Professional care"],
            CareSlips.Make(Item(), Book).Groups.Select(g => g.Group)
        );

    // The label states the limit of the most critical part, applications included (ginetex.net, care labelling).
    [Fact]
    public void A_print_lowers_what_cotton_stands()
    {
        var slip = CareSlips.Make(Item(), Glued(120));
        Assert.Equal(
            [
                "Wash at most at 30 °C, mild cycle.",
                "Do not bleach.",
                "Do not tumble dry; dry on the line or lying flat.",
                "Iron inside out at most at 110 °C, without steam, never on the print.",
                "Do not dry clean.",
            ],
            slip.Groups.Select(g => g.Advice.English)
        );
    }

    // The same limits as in the words above: 30 °C, mild; no bleach, no tumble drying; iron at 110 °C; no dry cleaning.
    [Fact]
    public void The_figures_behind_the_words_go_with_the_slip_so_that_a_licensed_workshop_can_draw_its_symbols() =>
        Assert.Equal(new CareLimits(30, 1, 0, 0, 110, false), CareSlips.Make(Item(), Glued(120)).Limits);

    // Arithmetic: a sole plate of 110 °C melts a glue that softens at 105 °C, whichever side it is put on.
    [Theory]
    [InlineData(105, "Do not iron.")]
    [InlineData(110, "Do not iron.")]
    [InlineData(111, "Iron inside out at most at 110 °C, without steam, never on the print.")]
    [InlineData(null, "Iron inside out at most at 110 °C, without steam, never on the print.")]
    public void No_iron_that_would_soften_the_glue_is_advised(int? softens, string advice) =>
        Assert.Equal(advice, CareSlips.Make(Item(), Glued(softens)).Groups[3].Advice);

    private static WorkshopBook Glued(int? softens) =>
        Book with
        {
            Processes = [Book.Processes[0] with { GlueSoftensC = softens }],
        };

    [Fact]
    public void Joining_two_limits_never_raises_either() =>
        Gen.Select(Limits, Limits)
            .Sample(
                (a, b) =>
                {
                    var both = a.Milder(b);
                    Assert.True(both.WashC <= a.WashC && both.WashGentle >= a.WashGentle && both.Bleach <= a.Bleach);
                    Assert.True(both.TumbleC <= a.TumbleC && both.IronC <= a.IronC && (a.DryClean || !both.DryClean));
                    Assert.Equal(both, b.Milder(a));
                    Assert.Equal(both, both.Milder(a));
                }
            );

    // 16 of 20: the complement of 4 of 20 in shared/data/binomial_ci.csv, Wilson 0.080658 to 0.416017, so 58.4 to 91.9 %.
    [Fact]
    public void Wash_life_is_told_from_the_longest_trial_with_an_honest_interval() =>
        Assert.Equal(
            "16 of 20 test prints were still good after 40 washes (own trial): with 95 % confidence 58 to 92 % of such prints last so long.",
            CareSlips.Make(Item(), Book).Washes
        );

    [Fact]
    public void Without_a_trial_common_practice_is_named_as_such() =>
        Assert.Equal(
            "We have not washed trial prints on this material yet. On cotton 35 to 45 cold washes are usual (common practice, no source); that is no promise.",
            CareSlips.Make(Item("polyester"), Book).Washes
        );

    [Fact]
    public void What_must_not_be_washed_gets_no_washing_tips()
    {
        var book = Book with { PrintCare = Book.PrintCare with { WashC = 0 } };
        var slip = CareSlips.Make(Item(), book);
        Assert.Empty(slip.Tips);
        Assert.Equal("Do not wash; wipe with a soft damp cloth.", slip.Groups[0].Advice);
    }
}
