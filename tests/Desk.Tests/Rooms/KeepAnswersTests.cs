using Coldpeel.Desk.Rooms;
using Coldpeel.Files.Orders;

namespace Coldpeel.Desk.Tests.Rooms;

public sealed class KeepAnswersTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("coldpeel-answers-").FullName;
    private OpenedWorkshop _workshop;

    public KeepAnswersTests() => _workshop = OpenWorkshop.Run(_folder, new FirstPlanClock()).Value!;

    public void Dispose()
    {
        _workshop.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public void Without_answers_the_example_holds_unchanged()
    {
        var (book, example) = (new KeepAnswers(_workshop).Book(), WorkshopBookReader.Example());
        Assert.Equal(example.Presses, book.Presses);
        Assert.Equal(example.Sheets, book.Sheets);
        Assert.Equal(example.Prices, book.Prices);
        Assert.Equal((example.PrinterDpi, example.AppUrl), (book.PrinterDpi, book.AppUrl));
        Assert.True(new KeepAnswers(_workshop).IsOpen);
    }

    [Fact]
    public void Answers_last_over_a_restart_to_the_last_digit()
    {
        var wished = new WorkshopAnswers(
            [new("large", 410, 500), new("old press no. 2", 380, 2000), new("x", 20, 20)],
            1200,
            [new(215.9, 279.4, 6.35), new(330.2, 482.6, 0)],
            "JPY",
            7.7m,
            LengthUnit.Inch,
            "de"
        );
        Assert.Null(new KeepAnswers(_workshop).Run(wished, "Ada"));
        _workshop.Dispose();
        _workshop = OpenWorkshop.Run(_folder, new FirstPlanClock()).Value!;
        var kept = new KeepAnswers(_workshop).Now();
        Assert.Equal(wished.Presses, kept.Presses);
        Assert.Equal(wished.Sheets, kept.Sheets);
        Assert.Equal(wished with { Presses = kept.Presses, Sheets = kept.Sheets }, kept);
        Assert.False(new KeepAnswers(_workshop).IsOpen);

        // The press that the example knows keeps its set-point; sheets weigh by their area.
        var book = new KeepAnswers(_workshop).Book();
        Assert.Equal(150, book.Presses[0].SetpointC);
        Assert.Equal(1, book.Sheets[0].Cost);
        Assert.Equal(330.2 * 482.6 / (215.9 * 279.4), book.Sheets[1].Cost, 2);
    }

    [Fact]
    public void The_history_tells_who_changed_what_and_what_it_was_before_and_nothing_else()
    {
        var keep = new KeepAnswers(_workshop);
        Assert.Null(keep.Run(keep.Now() with { Currency = "GBP" }, "Ada"));
        Assert.Null(keep.Run(keep.Now() with { Currency = "USD" }, "Ben"));
        var currency = new SettingHistory(_workshop).Last().Where(c => c.Key == "currency").ToArray();
        Assert.Equal([("Ben", "USD", "GBP"), ("Ada", "GBP", null)], currency.Select(c => (c.Who, c.After, c.Before)));
        Assert.Equal(
            ["currency", "questions"],
            new SettingHistory(_workshop).Last().Select(c => c.Key).Distinct().Order(StringComparer.Ordinal)
        );
    }

    [Fact]
    public void What_cannot_be_is_refused_whole()
    {
        var keep = new KeepAnswers(_workshop);
        var now = keep.Now();
        WorkshopAnswers[] wrong =
        [
            now with
            {
                Presses = [],
            },
            now with
            {
                Presses = [new("a", 19, 100)],
            },
            now with
            {
                Presses = [new("a; b", 100, 100)],
            },
            now with
            {
                Presses = [new("a", 100, 100), new("A", 100, 100)],
            },
            now with
            {
                PrinterDpi = 99,
            },
            now with
            {
                Sheets = [],
            },
            now with
            {
                Sheets = [new(210, double.NaN, 5)],
            },
            now with
            {
                Sheets = [new(10, 200, 5)],
            },
            now with
            {
                Currency = "eur",
            },
            now with
            {
                TaxPercent = -1,
            },
            now with
            {
                Language = "fr",
            },
        ];
        Assert.All(wrong, w => Assert.NotNull(keep.Run(w, "Ada")));
        Assert.True(keep.IsOpen);
        Assert.Empty(new SettingHistory(_workshop).Last());
    }
}
