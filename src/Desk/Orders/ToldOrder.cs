using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Orders;

/// <summary>An order as other programs are told of it.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Customer">Who asked.</param>
/// <param name="Due">The day it is due.</param>
/// <param name="MadeAt">When it was made.</param>
/// <param name="State">Whether it could be made.</param>
/// <param name="Stage">How far it has come.</param>
/// <param name="Figures">What was made; null when it was stopped.</param>
public sealed record ToldOrder(
    string Name,
    string Customer,
    DateOnly Due,
    DateTimeOffset MadeAt,
    KeptState State,
    OrderStage Stage,
    ToldFigures? Figures
)
{
    /// <summary>What the owner should know, worst first; null in a list.</summary>
    public IReadOnlyList<ToldFinding>? Findings { get; init; }

    /// <summary>Its papers and lists; null in a list.</summary>
    public IReadOnlyList<KeptFile>? Files { get; init; }

    /// <summary>The steps that were taken; null in a list.</summary>
    public IReadOnlyList<TakenStep>? Steps { get; init; }

    /// <summary>The order in one line.</summary>
    public static ToldOrder Of(KeptLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        return new(
            line.Name,
            line.Customer,
            line.Due,
            line.MadeAt.ToUniversalTime(),
            line.State,
            line.Stage,
            line.Figures is { } f
                ? new(
                    f.Sheets,
                    f.Pieces,
                    f.LeftOut,
                    f.MakespanS,
                    // Spoilt items made again: nobody pays for them.
                    line.AgainOf
                        is null
                        ? f.Total.Amount
                        : 0,
                    f.Total.Currency
                )
                : null
        );
    }

    /// <summary>The order with all that is told of it.</summary>
    public static ToldOrder Of(KeptOrder order)
    {
        ArgumentNullException.ThrowIfNull(order);
        return Of(order.Line) with
        {
            Findings =
            [
                .. order.Findings.Select(f => new ToldFinding(
                    f.Kind,
                    f.Severity,
                    f.Say.English,
                    f.Design,
                    f.Item,
                    f.Count,
                    f.WorstMm,
                    f.LimitMm,
                    f.Accepted
                )),
            ],
            Files = order.Files,
            Steps = [.. order.SoFar.Steps.Select(s => s with { At = s.At.ToUniversalTime() })],
        };
    }
}

/// <summary>What was made, in figures.</summary>
/// <param name="Sheets">Sheets to print.</param>
/// <param name="Pieces">Pieces on them.</param>
/// <param name="LeftOut">Pieces and pressings without a place.</param>
/// <param name="MakespanS">Length of the day at the presses, in seconds.</param>
/// <param name="Total">The price with tax; nothing for spoilt items that are made again.</param>
/// <param name="Currency">Its ISO 4217 code.</param>
public sealed record ToldFigures(int Sheets, int Pieces, int LeftOut, int MakespanS, decimal Total, string Currency);

/// <summary>A finding as other programs are told of it.</summary>
/// <param name="Kind">Short name: what <c>accept</c> takes.</param>
/// <param name="Severity">How much it weighs.</param>
/// <param name="Say">One sentence.</param>
/// <param name="Design">The design it is about.</param>
/// <param name="Item">The item it is about.</param>
/// <param name="Count">How many places.</param>
/// <param name="WorstMm">The worst figure found, in mm.</param>
/// <param name="LimitMm">What it is held against, in mm.</param>
/// <param name="Accepted">Whether it was accepted by name.</param>
public sealed record ToldFinding(
    string Kind,
    Severity Severity,
    string Say,
    string? Design,
    string? Item,
    int? Count,
    double? WorstMm,
    double? LimitMm,
    bool Accepted
);
