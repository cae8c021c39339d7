using System.Net;
using Coldpeel.Desk.Rooms;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>The questions of the first start, answered anew later at one place: presses, printer and sheets, currency and tax, unit, language.</summary>
public sealed class AnswersFormTests : BookDesk
{
    [Fact]
    public async Task Lengths_are_asked_in_the_unit_that_is_shown_and_are_not_worn_by_it()
    {
        var keep = new KeepAnswers(Workshop);
        var before = keep.Now();
        Assert.Null(keep.Run(before with { Unit = LengthUnit.Inch, Language = "en" }, "Ada"));
        var fields = await Fields("/workshop");
        Assert.Equal("15.748", fields["press-0-w"]);
        Assert.Contains("Plate across, in", await Desk.GetStringAsync("/workshop"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/answers", fields)).StatusCode);
        Assert.Equal(before.Presses, keep.Now().Presses);
        Assert.Equal(before.Sheets, keep.Now().Sheets);

        fields = await Fields("/workshop");
        fields["press-0-w"] = "15";
        fields["sheets"] = "letter";
        fields["margin"] = "0.25";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/answers", fields)).StatusCode);
        Assert.Equal(381, keep.Now().Presses[0].WidthMm);
        // ANSI/ASME Y14.1 size A (from memory): 8.5 × 11 inches.
        Assert.Equal(
            (215.9, 279.4, 6.35),
            (keep.Now().Sheets[0].WidthMm, keep.Now().Sheets[0].HeightMm, keep.Now().Sheets[0].MarginMm)
        );
    }

    [Fact]
    public async Task Each_of_the_five_questions_is_answered_anew_and_the_history_tells_who()
    {
        var fields = await Fields("/workshop");
        (fields["press-0"], fields["dpi"], fields["currency"]) = ("corner", "1200", "gbp");
        (fields["tax"], fields["unit"], fields["language"]) = ("7.5", "inch", "de");
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/answers", fields)).StatusCode);
        var now = new KeepAnswers(Workshop).Now();
        Assert.Equal(("corner", 1200, "GBP", 7.5m), (now.Presses[0].Id, now.PrinterDpi, now.Currency, now.TaxPercent));
        Assert.Equal((LengthUnit.Inch, "de"), (now.Unit, now.Language));
    }

    [Fact]
    public async Task Whoever_answers_what_another_has_changed_meanwhile_is_told_and_overwrites_nothing()
    {
        var (ada, ben) = (await Fields("/workshop"), await Fields("/workshop"));
        ada["press-0-w"] = "380";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/answers", ada)).StatusCode);
        ben["currency"] = "CHF";
        var told = await (await Send("/workshop/answers", ben)).Content.ReadAsStringAsync();
        Assert.Contains("Somebody else has changed this meanwhile", told, StringComparison.Ordinal);
        var keep = new KeepAnswers(Workshop);
        Assert.Equal((380, "EUR"), (keep.Now().Presses[0].WidthMm, keep.Now().Currency));
        ben = Inputs(told);
        ben["currency"] = "CHF";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/answers", ben)).StatusCode);
        Assert.Equal((380, "CHF"), (keep.Now().Presses[0].WidthMm, keep.Now().Currency));
    }
}
