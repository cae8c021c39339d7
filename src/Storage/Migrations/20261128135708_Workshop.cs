using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Coldpeel.Storage.Migrations
{
    /// <inheritdoc />
    public partial class Workshop : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_jobs_Due",
                table: "jobs");

            migrationBuilder.AddColumn<string>(
                name: "Sought",
                table: "jobs",
                type: "TEXT",
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "Stage",
                table: "jobs",
                type: "TEXT",
                maxLength: 30,
                nullable: false,
                defaultValue: "");

            migrationBuilder.CreateTable(
                name: "bench_days",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Name = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    StartMs = table.Column<long>(type: "INTEGER", nullable: false),
                    ClosedMs = table.Column<long>(type: "INTEGER", nullable: true),
                    PlanJson = table.Column<string>(type: "TEXT", nullable: false),
                    CardsJson = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_bench_days", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "changes",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    AtMs = table.Column<long>(type: "INTEGER", nullable: false),
                    Who = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    Of = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    What = table.Column<string>(type: "TEXT", maxLength: 1000, nullable: false),
                    BeforeJson = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_changes", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "devices",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Name = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    Role = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    TokenHash = table.Column<string>(type: "TEXT", fixedLength: true, maxLength: 64, nullable: false),
                    JoinedMs = table.Column<long>(type: "INTEGER", nullable: false),
                    OutMs = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_devices", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "order_marks",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Job = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    Step = table.Column<string>(type: "TEXT", maxLength: 30, nullable: false),
                    AtMs = table.Column<long>(type: "INTEGER", nullable: false),
                    Who = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    Note = table.Column<string>(type: "TEXT", maxLength: 1000, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_order_marks", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "settings",
                columns: table => new
                {
                    Key = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    Value = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_settings", x => x.Key);
                });

            migrationBuilder.CreateTable(
                name: "stock",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Kind = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    Place = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    Unit = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    Count = table.Column<long>(type: "INTEGER", nullable: false),
                    Least = table.Column<long>(type: "INTEGER", nullable: false),
                    BondedOn = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    Sought = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_stock", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "bench_events",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    DayId = table.Column<int>(type: "INTEGER", nullable: false),
                    Key = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    Saying = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    About = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Seconds = table.Column<int>(type: "INTEGER", nullable: false),
                    AtMs = table.Column<long>(type: "INTEGER", nullable: false),
                    ReceivedMs = table.Column<long>(type: "INTEGER", nullable: false),
                    Who = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_bench_events", x => x.Id);
                    table.ForeignKey(
                        name: "FK_bench_events_bench_days_DayId",
                        column: x => x.DayId,
                        principalTable: "bench_days",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "stock_moves",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    StockId = table.Column<int>(type: "INTEGER", nullable: false),
                    Key = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    AtMs = table.Column<long>(type: "INTEGER", nullable: false),
                    Who = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    By = table.Column<long>(type: "INTEGER", nullable: false),
                    Why = table.Column<string>(type: "TEXT", maxLength: 1000, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_stock_moves", x => x.Id);
                    table.ForeignKey(
                        name: "FK_stock_moves_stock_StockId",
                        column: x => x.StockId,
                        principalTable: "stock",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_jobs_Due_Name",
                table: "jobs",
                columns: new[] { "Due", "Name" });

            migrationBuilder.CreateIndex(
                name: "IX_jobs_Sought",
                table: "jobs",
                column: "Sought");

            migrationBuilder.CreateIndex(
                name: "IX_jobs_Stage_Due_Name",
                table: "jobs",
                columns: new[] { "Stage", "Due", "Name" });

            migrationBuilder.CreateIndex(
                name: "IX_bench_days_StartMs",
                table: "bench_days",
                column: "StartMs");

            migrationBuilder.CreateIndex(
                name: "IX_bench_events_DayId_Key",
                table: "bench_events",
                columns: new[] { "DayId", "Key" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_changes_Of_Name_Id",
                table: "changes",
                columns: new[] { "Of", "Name", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_devices_TokenHash",
                table: "devices",
                column: "TokenHash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_order_marks_Job_Id",
                table: "order_marks",
                columns: new[] { "Job", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_stock_Kind_Name_Place",
                table: "stock",
                columns: new[] { "Kind", "Name", "Place" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_stock_moves_Key",
                table: "stock_moves",
                column: "Key",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_stock_moves_StockId_Id",
                table: "stock_moves",
                columns: new[] { "StockId", "Id" });

            // Orders kept by an earlier program are found too.
            migrationBuilder.Sql("UPDATE jobs SET Sought = lower(Name || ' ' || Customer);");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "bench_events");

            migrationBuilder.DropTable(
                name: "changes");

            migrationBuilder.DropTable(
                name: "devices");

            migrationBuilder.DropTable(
                name: "order_marks");

            migrationBuilder.DropTable(
                name: "settings");

            migrationBuilder.DropTable(
                name: "stock_moves");

            migrationBuilder.DropTable(
                name: "bench_days");

            migrationBuilder.DropTable(
                name: "stock");

            migrationBuilder.DropIndex(
                name: "IX_jobs_Due_Name",
                table: "jobs");

            migrationBuilder.DropIndex(
                name: "IX_jobs_Sought",
                table: "jobs");

            migrationBuilder.DropIndex(
                name: "IX_jobs_Stage_Due_Name",
                table: "jobs");

            migrationBuilder.DropColumn(
                name: "Sought",
                table: "jobs");

            migrationBuilder.DropColumn(
                name: "Stage",
                table: "jobs");

            migrationBuilder.CreateIndex(
                name: "IX_jobs_Due",
                table: "jobs",
                column: "Due");
        }
    }
}
